/** A hand-made job for the tests of the report: one cycle with a hold, a cure, demo data throughout. */

import type { AlarmId } from '../../src/core/alarm-ids.ts';
import type { AlarmAction, Event, Snapshot, UnstampedEvent } from '../../src/core/events.ts';
import { SAFE } from '../../src/core/frame.ts';
import type { MeasuredValue, Measurement } from '../../src/core/measurements.ts';
import { CURE_PHASES, type PhaseId } from '../../src/core/phases.ts';
import { createJournal } from '../../src/journal/journal.ts';
import type { JournalEnd } from '../../src/journal/journal-format.ts';
import { HEALTHY_FRAME } from '../frames.ts';
import { ABOUT } from '../papers-in-order.ts';
import { DONE, fail, headerOf, memoryFile, SNAPSHOT } from './journal-data.ts';

export const PROFILE = {
  schema: 'meniscus/profile@1',
  sealCheck: { leakLimitPaM3PerS: 0.005 },
  vacuum: { setPointKPaAbs: 25, lowestKPaAbs: 15, dwellS: 30 },
  pressure: { setPointKPaGauge: 138, highestKPaGauge: 172, dwellS: 40 },
  glass: { lowestC: 12, highestC: 40 },
  cure: { targetAtResinMJPerCm2: 5400, leastS: 30, longestS: 600 },
};

/** What a report reads of a unit file that states uncertainties; not a whole one. */
export const UNIT = { lamp: { peakNm: 365 }, uncertainty: { acceptance: { coveragePercent: 95 } } };

export const at = (timeS: number, event: UnstampedEvent): Event => ({ timeS, ...event });
const phase = (timeS: number, id: PhaseId, cycle: number): Event =>
  at(timeS, { kind: 'phase', phase: id, cycle });
export const measured = (timeS: number, name: Measurement, value: number) => {
  const of = { name, portion: null, value } as MeasuredValue;
  return at(timeS, { kind: 'measured', ...of });
};

export const alarmEvent = (alarm: AlarmId, action: AlarmAction): UnstampedEvent => ({
  kind: 'alarm',
  alarm,
  from: 'normal',
  to: 'unacknowledged',
  action,
  priority: 'medium',
  cause: 'Expected demo, seen other',
  remedy: 'Demo remedy.',
});

const START: readonly Event[] = [
  at(0, { kind: 'batch', from: 'idle', to: 'running', why: 'demo' }),
  phase(0, 'self-test', 0),
  measured(2, 'atmospherePa', 100_600),
  phase(2, 'job-sheet', 0),
  phase(6, 'seal-watch', 0),
  measured(18, 'leakRatePaM3PerS', 0.001),
  at(18, { kind: 'seal-finding', finding: 'tight', why: 'The vacuum stays' }),
  phase(18, 'evacuate', 1),
  phase(20, 'vacuum-dwell', 1),
];

/** Without an end event: the footer's own words count. */
export const STOPPED: readonly Event[] = [
  ...START,
  at(30, { kind: 'batch', from: 'running', to: 'stopping', why: 'demo stop' }),
];

const FROM_BUBBLES_ON: readonly Event[] = [
  measured(50, 'vacuumReachedPa', 25_100),
  measured(50, 'pumpStrengthRatio', 0.95),
  phase(50, 'ask-bubbles', 1),
  at(55, { kind: 'answer', phase: 'ask-bubbles', answer: 'no' }),
  phase(55, 'release', 1),
  phase(56, 'pressurise', 1),
  phase(60, 'pressure-dwell', 1),
  measured(100, 'pressureReachedPa', 238_000),
  phase(100, 'vent', 1),
  phase(102, 'ask-clear', 1),
  at(105, { kind: 'answer', phase: 'ask-clear', answer: 'yes' }),
  phase(106, 'place-lamp', 1),
  phase(110, 'cure', 1),
  measured(150, 'doseJPerM2', 60_200),
  measured(150, 'doseUncertaintyJPerM2', 100),
  measured(150, 'doseCoverageFactor', 2),
  measured(150, 'lampOnS', 40),
  measured(150, 'gapsPassed', 3),
  measured(150, 'gapsFailed', 0),
  measured(150, 'unconfirmedDoseJPerM2', 0),
  measured(150, 'irradianceMeanWPerM2', 1505),
  ...[
    ['glassOverAirK', 1.5],
    ['heatSinkOverAirK', 2.5],
    ['glassWarmedK', 2.4],
    ['heatSinkWarmedK', 19.5],
    ['heatSinkUsuallyWarmedK', 20.1],
    ['clockOffAtMostRatio', 0.002],
    ['clockComparedS', 150],
  ].map(([name, value]) => measured(150, name as Measurement, value as number)),
  phase(150, 'scrape', 1),
  phase(180, 'final-look', 1),
  at(188, { kind: 'answer', phase: 'final-look', answer: 'yes' }),
  phase(190, 'result', 1),
  at(200, { kind: 'batch', from: 'running', to: 'complete', why: 'demo' }),
  at(200, { kind: 'end', ...DONE }),
];

export const GOOD_JOB: readonly Event[] = [...START, ...FROM_BUBBLES_ON];

/** The same with a person's hold in the middle of the vacuum dwell. */
export const HELD_JOB: readonly Event[] = [
  ...START,
  at(30, { kind: 'batch', from: 'running', to: 'holding', why: 'demo hold' }),
  at(31, { kind: 'batch', from: 'holding', to: 'held', why: 'demo hold' }),
  at(38, { kind: 'batch', from: 'held', to: 'restarting', why: 'demo' }),
  at(39, { kind: 'batch', from: 'restarting', to: 'running', why: 'demo' }),
  phase(39, 'vacuum-dwell', 1),
  ...FROM_BUBBLES_ON,
];

export interface Telling {
  readonly profile?: unknown;
  /** Sections of the profile with fields changed. */
  readonly profileWith?: Readonly<Record<string, unknown>>;
  readonly job?: unknown;
  readonly unit?: unknown;
  readonly seed?: number | null;
  readonly end?: JournalEnd;
  readonly lowestPa?: number;
  readonly glassK?: number;
  /** The chamber while a person looks whether the break is clear. */
  readonly lookPa?: number;
  readonly shieldClosed?: (timeS: number) => boolean;
  /** The count of the glass sensor stands, in the light as well. */
  readonly glassRests?: boolean;
  readonly doseJPerM2?: number;
  /** What goes with the job beside its settings. */
  readonly about?: unknown;
}

/** The text of a journal with these events, and a tick and a snapshot every five seconds. */
export function journalOf(events: readonly Event[], telling: Telling = {}): string {
  const { file, text } = memoryFile();
  const profile = mixed(
    telling.profile === undefined ? PROFILE : telling.profile,
    telling.profileWith,
  );
  const { job = { glassC: 23 }, unit = UNIT, seed = 7, end = DONE } = telling;
  const { about = ABOUT } = telling;
  const header = { ...headerOf({ profile, job, unit }), seed, about };
  const journal = createJournal({ path: '', header, onError: fail, open: () => file });
  for (const event of events) journal.event(event);
  for (let timeS = 0; timeS <= 200; timeS += 5) {
    const frame = { ...HEALTHY_FRAME, sequence: timeS / 5, timeS, sampledAtS: timeS };
    const cures = isCuring(events, timeS);
    const { shieldClosed = () => cures } = telling;
    const switches = { ...frame.switches, shieldClosed: shieldClosed(timeS) };
    const { glassRests = false } = telling;
    const glassTemperature = glassRests ? 512 : 512 - (timeS % 10) / 5;
    const counts = { ...frame.counts, glassTemperature };
    journal.tick({ ...frame, switches, counts }, [], cures ? LAMP_ON : SAFE);
    journal.snapshot(snapshotAt(events, timeS, telling));
  }
  journal.close(end);
  return text();
}

/** The profile with these fields of its sections changed. */
function mixed(profile: unknown, change: Readonly<Record<string, unknown>> = {}): unknown {
  if (typeof profile !== 'object' || profile === null) return profile;
  const sections = Object.entries(change).map(([name, section]) => {
    const given = (profile as Readonly<Record<string, unknown>>)[name];
    const both = typeof section === 'object' && typeof given === 'object';
    return [name, both ? { ...given, ...section } : section];
  });
  return { ...profile, ...Object.fromEntries(sections) };
}

/** The lamp burns from the first tick of a cure to its last; the shield is open otherwise. */
function isCuring(events: readonly Event[], timeS: number): boolean {
  const now = events.findLast((event) => event.kind === 'phase' && event.timeS <= timeS);
  return now?.kind === 'phase' && CURE_PHASES.has(now.phase);
}
const LAMP_ON = { ...SAFE, lampEnabled: true, lampRatio: 1 };

function snapshotAt(events: readonly Event[], timeS: number, telling: Telling): Snapshot {
  const now = events.findLast((event) => event.kind === 'phase' && event.timeS <= timeS);
  const { phase: id, cycle } =
    now?.kind === 'phase' ? now : ({ phase: 'self-test', cycle: 0 } as const);
  const { lookPa = 100_600 } = telling;
  const { lowestPa = 25_000, glassK = 296.15, doseJPerM2 = 0 } = telling;
  const evacuated = id === 'vacuum-dwell' || id === 'ask-bubbles';
  const pressurePa = evacuated
    ? lowestPa
    : id === 'pressure-dwell'
      ? 238_000
      : id === 'ask-clear'
        ? lookPa
        : 100_600;
  return { ...SNAPSHOT, timeS, phase: id, cycle, pressurePa, glassK, doseJPerM2 };
}
