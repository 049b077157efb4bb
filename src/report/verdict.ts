/**
 * Compares the job's extremes with the profile's limits and states the verdict on the process. The
 * claim is deliberately small: a process within its limits. The look of the fill is the person's
 * answer; the strength of the glass is not measured.
 */

import type { Snapshot } from '../core/events.ts';
import { numberAt } from '../core/fields.ts';
import { CURE_PHASES, partOf } from '../core/phases.ts';
import { kFromCelsius, paFromKPa } from '../core/units.ts';
import type { JournalEnd } from '../journal/journal-format.ts';
import type { AlarmRow } from './alarms-raised.ts';
import { curedPortionsOf, type DoseResult, measuredPortionOf } from './report-dose.ts';
import type { Reservation } from './reservations.ts';
import { extreme, type HoldRow, lastMeasured, type MeasuredRow } from './timeline.ts';

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

export interface Verdict {
  readonly process:
    | 'process within its limits'
    | 'process within its limits, with interruptions'
    /**
     * A check was overridden, resin was past its date, or a finding contradicts what was stated.
     */
    | 'process within its limits, with reservations'
    | 'process outside its limits'
    /**
     * Every measured value is within its limits, but the dose is too close to its target to be
     * sure.
     */
    | 'dose not shown to be met'
    | 'process not completed'
    /** The journal has no end, so what happened after its last line is unknown. */
    | 'record incomplete, process not judged'
    | 'record changed, process not judged';
  readonly grade: 'good' | 'caution' | 'bad';
}

/**
 * The verdict that the chain records for a job whose journal broke off; a later report must not
 * improve on it.
 */
export const INCOMPLETE = 'record incomplete, process not judged' satisfies Verdict['process'];

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
      return row(what, 's', last('lampOnS', measuredPortionOf(portion)), allowed);
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

interface Grounds {
  readonly end: JournalEnd;
  /** Null where the journal has no end. */
  readonly intact: boolean | null;
  readonly dose: DoseResult;
  readonly limits: readonly LimitRow[];
  readonly alarms: readonly AlarmRow[];
  readonly holds: readonly HoldRow[];
  readonly reservations: readonly Reservation[];
}

export function verdictOf(grounds: Grounds): Verdict {
  const { end, intact, dose, limits, alarms, holds, reservations } = grounds;
  if (intact === false) return { process: 'record changed, process not judged', grade: 'bad' };
  if (intact === null) return { process: INCOMPLETE, grade: 'bad' };
  if (end.reason !== 'completed') {
    const chosen = end.reason === 'stopped-by-person';
    return { process: 'process not completed', grade: chosen ? 'caution' : 'bad' };
  }
  const doseFails = dose.verdict === 'not met' || dose.verdict === 'not cured';
  if (doseFails || limits.some(({ within }) => within === false)) {
    return { process: 'process outside its limits', grade: 'bad' };
  }
  if (dose.verdict === 'not shown') return { process: 'dose not shown to be met', grade: 'bad' };
  if (reservations.length > 0) {
    return { process: 'process within its limits, with reservations', grade: 'caution' };
  }
  if (holds.length > 0 || alarms.some(({ action }) => action !== 'warn')) {
    return { process: 'process within its limits, with interruptions', grade: 'caution' };
  }
  return { process: 'process within its limits', grade: 'good' };
}
