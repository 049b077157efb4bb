/**
 * Uncertainty budgets for a report: for the pressures, temperature and light in a journal, from the
 * unit file in its header. It joins rooms that may not import each other; an older unit file
 * without uncertainties gives none.
 */

import { type UnitSettings, unitSettingsSchema } from '../../control/unit-settings.ts';
import { type JobMeasurement, PORTIONS, type Portion } from '../../core/measurements.ts';
import { spreadsOf } from '../../cure/light-path.ts';
import type { JournalContents } from '../../journal/read-journal.ts';
import type { BudgetLine } from '../../report/budget-line.ts';
import { lastMeasured, measuredRowsOf } from '../../report/timeline.ts';
import { type Budget, largestPart } from '../../signal/budget.ts';
import { irradianceBudget, resinLightBudget } from '../../signal/irradiance-budget.ts';
import { pressureBudget } from '../../signal/pressure-budget.ts';
import { coverageFactor } from '../../signal/student-t.ts';
import { temperatureBudget } from '../../signal/temperature-budget.ts';

/** Two-sided coverage; the usual choice of JCGM 100, 6.3.3. */
const COVERAGE = 0.95;

type Values = Pick<JournalContents, 'events' | 'snapshots'>;

export function budgetLinesOf({
  header,
  ...values
}: Pick<JournalContents, 'header' | 'events' | 'snapshots'>): readonly BudgetLine[] {
  const unit = unitSettingsSchema.safeParse(header.inputs.unit);
  return unit.success ? linesOf(values, unit.data) : [];
}

function linesOf(
  { events, snapshots }: Values,
  { channels, uncertainty, lightPath }: UnitSettings,
): readonly BudgetLine[] {
  const rows = measuredRowsOf(events);
  const last = (name: JobMeasurement): number | null => lastMeasured(rows, name);
  const glassK = snapshots.flatMap((s) => (s.glassK === null ? [] : [s.glassK])).at(-1) ?? null;
  const line = (
    channel: BudgetLine['channel'],
    unit: BudgetLine['unit'],
    value: number | null,
    budget: (value: number) => Budget,
  ): readonly BudgetLine[] =>
    value === null ? [] : [lineOf({ channel, unit, value }, budget(value))];
  const ofLight = (wPerM2: number) => irradianceBudget(wPerM2, channels, uncertainty);
  const ofPressure = (pa: number) => pressureBudget(pa, channels, uncertainty);
  /** Of the mean irradiance, the share that reached the resin: that of the targets. */
  const atResin = (portion: Portion | null): readonly BudgetLine[] => {
    const wPerM2 = lastMeasured(rows, 'irradianceMeanWPerM2', portion);
    const target = lastMeasured(rows, 'targetAtResinJPerM2', portion);
    const atSensor = lastMeasured(rows, 'targetJPerM2', portion);
    if (wPerM2 === null || target === null || atSensor === null || lightPath === null) return [];
    const spreads = spreadsOf(lightPath);
    return line('light at the resin', 'W/m2', (wPerM2 * target) / atSensor, (value) =>
      resinLightBudget(value, wPerM2, channels, uncertainty, spreads),
    );
  };
  return [
    ...line('pressure', 'Pa', last('vacuumReachedPa'), ofPressure),
    ...line('pressure', 'Pa', last('pressureReachedPa'), ofPressure),
    ...line('glass temperature', 'K', glassK, (k) => temperatureBudget(k, channels, uncertainty)),
    // Of one cure for both portions, or of each portion's own.
    ...[null, ...PORTIONS].flatMap((portion) =>
      line('irradiance', 'W/m2', lastMeasured(rows, 'irradianceMeanWPerM2', portion), ofLight),
    ),
    ...[null, ...PORTIONS].flatMap(atResin),
  ];
}

function lineOf(what: Pick<BudgetLine, 'channel' | 'unit' | 'value'>, budget: Budget): BudgetLine {
  const k = coverageFactor(COVERAGE, budget.degreesOfFreedom, 'two-sided');
  const most = largestPart(budget);
  return {
    ...what,
    standard: budget.standard,
    degreesOfFreedom: Number.isFinite(budget.degreesOfFreedom) ? budget.degreesOfFreedom : null,
    coverageFactor: k,
    expanded: k * budget.standard,
    largestPart: { name: most?.name ?? 'none', standard: most?.standard ?? 0 },
  };
}
