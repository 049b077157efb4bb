/** A hand-made job whose fill and pit were cured apart. */
import { type Event, measuredEvents } from '../../src/core/events.ts';
import {
  type CureMeasurement,
  measuredOfCure,
  measuredOfJob,
  type Portion,
} from '../../src/core/measurements.ts';
import type { PhaseId } from '../../src/core/phases.ts';
import { at, GOOD_JOB, PROFILE } from './job-story.ts';

export const APART = {
  ...PROFILE,
  curing: 'apart',
  pitCure: { targetAtResinMJPerCm2: 1350, leastS: 10, longestS: 300 },
};

const phase = (timeS: number, id: PhaseId): Event =>
  at(timeS, { kind: 'phase', phase: id, cycle: 1 });
type Values = Partial<Record<CureMeasurement, number>>;
const measured = (timeS: number, portion: Portion, values: Values): readonly Event[] =>
  measuredEvents(measuredOfCure(portion, values)).map((event) => at(timeS, event));
const coverage = (timeS: number): readonly Event[] =>
  measuredEvents(measuredOfJob({ doseCoverageFactor: 2 })).map((event) => at(timeS, event));

const LIGHT = { doseUncertaintyJPerM2: 100, unconfirmedDoseJPerM2: 0, gapsPassed: 2 };
export const PIT_MET = { ...LIGHT, doseJPerM2: 15_300, lampOnS: 12 };
export const FILL_MET = { ...LIGHT, doseJPerM2: 60_300, lampOnS: 40 };

/** The good job up to the judged break, then two cures that gave these doses. */
export function apartJob(fill: Values = FILL_MET, pit: Values = PIT_MET): readonly Event[] {
  const judged = GOOD_JOB.findIndex((e) => e.kind === 'phase' && e.phase === 'place-lamp');
  const scraped = GOOD_JOB.findIndex((e) => e.kind === 'phase' && e.phase === 'scrape');
  return [
    ...GOOD_JOB.slice(0, judged),
    ...measured(104, 'fill', { targetJPerM2: 60_000 }),
    ...measured(104, 'pit', { targetJPerM2: 15_000 }),
    phase(105, 'cure-fill'),
    ...measured(125, 'fill', fill),
    ...coverage(125),
    phase(125, 'fill-pit'),
    phase(130, 'cure'),
    ...measured(150, 'pit', pit),
    ...coverage(150),
    ...measured(150, 'fill', { throughPitJPerM2: 9000 }),
    ...GOOD_JOB.slice(scraped),
  ];
}
