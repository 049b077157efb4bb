/**
 * Compares the job's extremes with the profile's limits. The claims rest on these rows; the report
 * prints them as they are.
 */

import type { Snapshot } from '../core/events.ts';
import { numberAt } from '../core/fields.ts';
import { CURE_PHASES, partOf } from '../core/phases.ts';
import { kFromCelsius, paFromKPa } from '../core/units.ts';
import { curedPortionsOf, measuredPortionOf } from './report-dose.ts';
import { extreme, lastMeasured, type MeasuredRow, ofField } from './timeline.ts';

export interface LimitRow {
  readonly what:
    | 'chamber pressure'
    | 'glass temperature'
    | 'seal leak'
    | 'lamp on'
    | 'lamp on, fill'
    | 'lamp on, pit';
  readonly unit: 'Pa' | 'K' | 'Pa m3/s' | 's';
  readonly lowestSeen: number | null;
  readonly highestSeen: number | null;
  readonly lowestAllowed: number | null;
  readonly highestAllowed: number | null;
  /** Null where nothing was measured or no limit is stated. */
  readonly within: boolean | null;
}

export function limitRowsOf(
  snapshots: readonly Snapshot[],
  measured: readonly MeasuredRow[],
  profile: unknown,
): readonly LimitRow[] {
  const running = snapshots.filter(({ batch }) => batch === 'running');
  const seen = (pick: (snapshot: Snapshot) => number | null): readonly number[] =>
    running.map(pick).filter((value) => value !== null);
  const last = (
    name: MeasuredRow['name'],
    portion: MeasuredRow['portion'] = null,
  ): readonly number[] => [lastMeasured(measured, name, portion)].filter((value) => value !== null);
  // The lamp counts from zero over each field.
  const fields = [...new Set(measured.map(({ field = 1 }) => field))];
  const ofEachField = (name: MeasuredRow['name'], portion: MeasuredRow['portion']) =>
    fields.flatMap((field) => lastMeasured(ofField(measured, field), name, portion) ?? []);
  const limit = (from: (value: number) => number, ...path: readonly string[]): number | null => {
    const value = numberAt(profile, ...path);
    return value === null ? null : from(value);
  };
  const same = (value: number): number => value;
  const atmospherePa = lastMeasured(measured, 'atmospherePa');
  const gaugePa = limit(paFromKPa, 'pressure', 'highestKPaGauge');
  const highestPa = gaugePa === null || atmospherePa === null ? null : atmospherePa + gaugePa;
  const glass = ['lowestC', 'highestC'].map((name) => limit(kFromCelsius, 'glass', name));
  return [
    row(
      'chamber pressure',
      'Pa',
      seen(({ pressurePa }) => pressurePa),
      [limit(paFromKPa, 'vacuum', 'lowestKPaAbs'), highestPa],
    ),
    row(
      'glass temperature',
      'K',
      seen((s) => (isWorked(s) ? s.glassK : null)),
      glass,
    ),
    row('seal leak', 'Pa m3/s', last('leakRatePaM3PerS'), [
      null,
      limit(same, 'sealCheck', 'leakLimitPaM3PerS'),
    ]),
    ...curedPortionsOf(profile).map((portion) => {
      const { what, section } = LAMP_ROWS[portion];
      const allowed = ['leastS', 'longestS'].map((bound) => limit(same, section, bound));
      return row(what, 's', ofEachField('lampOnS', measuredPortionOf(portion)), allowed);
    }),
  ];
}

const LAMP_ROWS = {
  'fill and pit': { what: 'lamp on', section: 'cure' },
  fill: { what: 'lamp on, fill', section: 'cure' },
  pit: { what: 'lamp on, pit', section: 'pitCure' },
} as const;

/**
 * The profile limits the glass temperature while air and resin are worked and while the lamp is on.
 */
const isWorked = ({ phase }: Snapshot): boolean =>
  CURE_PHASES.has(phase) || partOf(phase) === 'seal' || partOf(phase) === 'cycles';

function row(
  what: LimitRow['what'],
  unit: LimitRow['unit'],
  seen: readonly number[],
  [lowestAllowed = null, highestAllowed = null]: readonly (number | null)[],
): LimitRow {
  const lowestSeen = extreme(seen, Math.min);
  const highestSeen = extreme(seen, Math.max);
  const unknown =
    lowestSeen === null ||
    highestSeen === null ||
    (lowestAllowed === null && highestAllowed === null);
  const within = unknown
    ? null
    : lowestSeen >= (lowestAllowed ?? Number.NEGATIVE_INFINITY) &&
      highestSeen <= (highestAllowed ?? Number.POSITIVE_INFINITY);
  return { what, unit, lowestSeen, highestSeen, lowestAllowed, highestAllowed, within };
}
