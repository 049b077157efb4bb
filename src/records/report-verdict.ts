/**
 * What may be said of a job: dose against its target, extremes against the profile's limits, and the
 * verdict on the process. The claim is kept small on purpose: a process within its limits. What the
 * fill looks like is the person's answer; how strong the glass is nobody measured.
 */
import { type Snapshot, STEP_NUMBERS } from '../events.ts';
import { jPerM2FromMJPerCm2, kFromCelsius, paFromKPa } from '../units.ts';
import type { JournalEnd } from './journal-format.ts';
import type { AlarmRow } from './report-alarms.ts';
import { extreme, type HoldRow, lastMeasured, type MeasuredRow } from './report-timeline.ts';

export interface DoseResult {
  readonly verdict: 'met' | 'not met' | 'not cured';
  readonly doseJPerM2: number;
  /** Null where the profile states none. */
  readonly targetJPerM2: number | null;
  readonly lampOnS: number | null;
  readonly irradianceMeanWPerM2: number | null;
}

export interface LimitRow {
  readonly what: 'chamber pressure' | 'glass temperature' | 'seal leak' | 'lamp on';
  readonly unit: 'Pa' | 'K' | 'Pa m3/s' | 's';
  readonly lowestSeen: number | null;
  readonly highestSeen: number | null;
  readonly lowestAllowed: number | null;
  readonly highestAllowed: number | null;
  /** Null where nothing was seen or nothing is stated. */
  readonly within: boolean | null;
}

export interface Verdict {
  readonly process:
    | 'process within its limits'
    | 'process within its limits, with interruptions'
    | 'process outside its limits'
    | 'process not completed'
    | 'record changed, process not judged';
  readonly grade: 'good' | 'caution' | 'bad';
}

export function doseResultOf(
  snapshots: readonly Snapshot[],
  measured: readonly MeasuredRow[],
  profile: unknown,
): DoseResult {
  const stated = lastMeasured(measured, 'doseJPerM2');
  const doseJPerM2 = stated ?? snapshots.at(-1)?.doseJPerM2 ?? 0;
  const targetMJPerCm2 = numberAt(profile, 'cure', 'targetMJPerCm2');
  const targetJPerM2 = targetMJPerCm2 === null ? null : jPerM2FromMJPerCm2(targetMJPerCm2);
  // The controller states a dose once the least time is met as well; before that it is not met.
  const met = stated !== null && targetJPerM2 !== null && stated >= targetJPerM2;
  return {
    verdict: met ? 'met' : doseJPerM2 > 0 ? 'not met' : 'not cured',
    doseJPerM2,
    targetJPerM2,
    lampOnS: lastMeasured(measured, 'lampOnS'),
    irradianceMeanWPerM2: lastMeasured(measured, 'irradianceMeanWPerM2'),
  };
}

export function limitRowsOf(
  snapshots: readonly Snapshot[],
  measured: readonly MeasuredRow[],
  profile: unknown,
): readonly LimitRow[] {
  const running = snapshots.filter(({ batch }) => batch === 'running');
  const seen = (pick: (snapshot: Snapshot) => number | null): readonly number[] =>
    running.map(pick).filter((value) => value !== null);
  const last = (name: MeasuredRow['name']): readonly number[] =>
    [lastMeasured(measured, name)].filter((value) => value !== null);
  const limit = (from: (value: number) => number, ...path: readonly string[]): number | null => {
    const value = numberAt(profile, ...path);
    return value === null ? null : from(value);
  };
  const same = (value: number): number => value;
  const atmospherePa = lastMeasured(measured, 'atmospherePa');
  const gaugePa = limit(paFromKPa, 'pressure', 'highestKPaGauge');
  const highestPa = gaugePa === null || atmospherePa === null ? null : atmospherePa + gaugePa;
  const glass = ['lowestC', 'highestC'].map((name) => limit(kFromCelsius, 'glass', name));
  const lamp = ['leastS', 'longestS'].map((name) => limit(same, 'cure', name));
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
    row('lamp on', 's', last('lampOnS'), lamp),
  ];
}

/** The profile limits the glass while air and resin are worked and while the lamp burns. */
const isWorked = ({ phase }: Snapshot): boolean =>
  phase === 'cure' || /^[45]\./.test(STEP_NUMBERS[phase]);

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
  readonly intact: boolean | null;
  readonly dose: DoseResult;
  readonly limits: readonly LimitRow[];
  readonly alarms: readonly AlarmRow[];
  readonly holds: readonly HoldRow[];
}

export function verdictOf({ end, intact, dose, limits, alarms, holds }: Grounds): Verdict {
  if (intact === false) return { process: 'record changed, process not judged', grade: 'bad' };
  if (end.reason !== 'completed') {
    const chosen = end.reason === 'stopped-by-person';
    return { process: 'process not completed', grade: chosen ? 'caution' : 'bad' };
  }
  if (dose.verdict !== 'met' || limits.some(({ within }) => within === false)) {
    return { process: 'process outside its limits', grade: 'bad' };
  }
  if (holds.length > 0 || alarms.some(({ action }) => action !== 'warn')) {
    return { process: 'process within its limits, with interruptions', grade: 'caution' };
  }
  return { process: 'process within its limits', grade: 'good' };
}

/** A number somewhere inside a file as given, or null where there is none. */
function numberAt(file: unknown, ...path: readonly string[]): number | null {
  const found = path.reduce<unknown>(
    (value, key) =>
      typeof value === 'object' && value !== null
        ? (value as Readonly<Record<string, unknown>>)[key]
        : undefined,
    file,
  );
  return typeof found === 'number' ? found : null;
}
