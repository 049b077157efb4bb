/**
 * The channel budgets of the demo unit, and the uncertainty of a dose, against draws of every error
 * through equations written anew: sensor, converter, middle of three samples and inverse. First
 * order may be wrong by what curves and multiplies, which the draws have in them.
 */
import { doseUncertaintyJPerM2 } from '../../../src/cure/dose-uncertainty.ts';
import type { Budget } from '../../../src/signal/budget.ts';
import { irradianceBudget } from '../../../src/signal/irradiance-budget.ts';
import { pressureBudget } from '../../../src/signal/pressure-budget.ts';
import { temperatureBudget } from '../../../src/signal/temperature-budget.ts';
import { DEFAULT_UNIT } from '../../configs.ts';
import type { CheckGroup, CheckRow } from '../check.ts';
import reference from '../reference/uncertainty.json' with { type: 'json' };

const { channels, uncertainty, doseUncertaintyTerms } = DEFAULT_UNIT;
const DRAWS = 400_000;
const CURES = 200_000;

/** Four standard errors of a standard deviation found from n draws, 1/sqrt(2n) of it each. */
const errorsOf = (n: number): number => 4 / Math.sqrt(2 * n);

const row = (
  what: string,
  actual: () => number,
  expected: number,
  unit: string,
  draws = DRAWS,
): CheckRow => ({
  what,
  actual,
  expected,
  tolerance: expected * errorsOf(draws),
  unit,
  source: 'draws of every error through the whole chain: reference/uncertainty.md',
  obtained: 'independent solver',
});

const rowsOf = (
  name: string,
  unit: string,
  drawn: Readonly<Record<string, number>>,
  budget: (value: number) => Budget,
): readonly CheckRow[] =>
  Object.entries(drawn).map(([value, spread]) =>
    row(`u of ${name} at ${value} ${unit}`, () => budget(Number(value)).standard, spread, unit),
  );

export const CHANNEL_BUDGETS: CheckGroup = {
  title: 'uncertainty of readings and dose',
  rows: [
    ...rowsOf('pressure', 'Pa', reference.pressure, (pa) =>
      pressureBudget(pa, channels, uncertainty),
    ),
    ...rowsOf('irradiance', 'W/m2', reference.irradiance, (w) =>
      irradianceBudget(w, channels, uncertainty),
    ),
    ...rowsOf('glass temperature', 'K', reference.temperature, (k) =>
      temperatureBudget(k, channels, uncertainty),
    ),
    row(
      'u of the dose of 324 s at 195 W/m2',
      () =>
        doseUncertaintyJPerM2(
          { doseJPerM2: 195 * 324, lampOnS: 324, pieces: 1 },
          doseUncertaintyTerms,
        ),
      reference.dose,
      'J/m2',
      CURES,
    ),
  ],
};
