/** What each ready-made fault does to a whole repair: its own alarm, no other, and its end. */
import { expect } from 'vitest';
import { SAFE } from '../../src/core/frame.ts';
import type { RepairConfig } from '../../src/procedure/repair/repair-state.ts';
import { type BenchRun, runRepair } from '../bench.ts';
import { SPECIFICATION } from '../safety/specification.ts';
import { doseStatedIn } from './seeded.ts';

/** The most alarms that a person meets within ten minutes. */
function mostInTenMinutes({ events }: BenchRun): number {
  const atS = events.flatMap((event) =>
    event.kind === 'alarm' && event.to === 'unacknowledged' ? [event.timeS] : [],
  );
  return Math.max(0, ...atS.map((from) => atS.filter((s) => s >= from && s < from + 600).length));
}

const raisedIn = ({ events }: BenchRun) =>
  events.flatMap((event) =>
    event.kind === 'alarm' && event.to === 'unacknowledged' ? [event] : [],
  );
/** Where the batch stands at the end of the tick in which an alarm of this action is raised. */
const BATCH_AFTER = { warn: /^running$/, hold: /^(hold|held)/, abort: /^abort/ } as const;
const batchAfter = ({ events }: BenchRun, timeS: number) =>
  events
    .flatMap((event) => (event.kind === 'batch' && event.timeS <= timeS ? [event.to] : []))
    .at(-1);

interface Course {
  readonly alarms: readonly string[];
  readonly end: string;
}

interface Row extends Course {
  /** In the demo job, where it comes to something else by the moment at which it begins. */
  readonly inDemoJob?: Course;
  /** It begins or shows late in the cure. */
  readonly wholeCure?: true;
}

export const EXPECTED_ALARMS: Readonly<Record<string, Row>> = {
  // Told by the person who looks, and by nothing that the unit measures: finite-resin.test.ts.
  'short-charge': { alarms: [], end: 'completed' },
  // Found dry: loose-clamp.test.ts.
  'loose-clamp': { alarms: [], end: 'completed' },
  // Too fast for the warning, which waits for 2 s near the limit, but for the way back.
  'heated-too-fast': {
    alarms: ['heated-too-fast', 'spot-hot'],
    end: 'completed',
    inDemoJob: { alarms: ['heated-too-fast', 'spot-hot', 'heat-near-limit'], end: 'completed' },
  },
  daylight: { alarms: ['daylight-near', 'daylight-set'], end: 'completed' },
  'dead-lamp': { alarms: ['lamp-no-light'], end: 'completed' },
  'stuck-lamp': {
    alarms: ['light-gap-failed', 'light-lamp-off'],
    end: 'alarm',
    wholeCure: true,
  },
  'hot-lamp': { alarms: ['heat-sink-warm'], end: 'completed', wholeCure: true },
  'dead-pump': { alarms: ['pump-no-effect'], end: 'completed' },
  'runaway-pump': { alarms: ['set-point-passed'], end: 'stopped-by-person' },
  'stuck-vent': { alarms: ['vent-no-effect'], end: 'alarm' },
  // At or below its set-point the reading is missed for its noise. Above, the pump works on.
  'stuck-pressure-sensor': {
    alarms: ['pressure-sensor'],
    end: 'completed',
    inDemoJob: { alarms: ['leak-in-dwell', 'vent-no-effect'], end: 'alarm' },
  },
  'drifting-sensor': { alarms: ['leak-in-dwell'], end: 'completed' },
  'broken-pressure-wire': { alarms: ['pressure-sensor'], end: 'completed' },
  'broken-light-wire': { alarms: ['irradiance-sensor'], end: 'completed' },
  'over-pressure-switch': { alarms: ['over-pressure-switch'], end: 'alarm' },
  'low-supply': { alarms: ['supply-low'], end: 'completed' },
  'cut-buttons': { alarms: ['buttons-open'], end: 'completed' },
  'stuck-hold': { alarms: ['button-stuck'], end: 'completed' },
  'mute-link': { alarms: ['link-lost'], end: 'completed' },
  'late-frame': { alarms: ['frames-late'], end: 'completed' },
  'spoilt-message': { alarms: ['message-spoilt'], end: 'completed' },
  'missing-frames': { alarms: ['frames-missing'], end: 'completed' },
  'board-restart': { alarms: ['board-tripped'], end: 'completed' },
  'fast-board-clock': { alarms: ['board-clock'], end: 'stopped-by-person' },
  'slow-board-clock': { alarms: ['board-clock'], end: 'stopped-by-person' },
  'board-stands-still': { alarms: ['frames-stand-still'], end: 'completed' },
  'frozen-light-sensor': { alarms: ['light-gap-failed', 'light-lamp-off'], end: 'alarm' },
  'light-gain': { alarms: ['light-too-bright'], end: 'stopped-by-person' },
  'light-zero': { alarms: ['light-not-dark'], end: 'stopped-by-person' },
};

/** In a job of this length. */
export function expectItsAlarm(name: string, { alarms, end }: Course, config: RepairConfig): void {
  const run = runRepair({ faults: [name], config });
  expect([...new Set(run.alarms)]).toEqual(alarms);
  expect(run.end).toBe(end);
  // ISA-18.2 calls more than ten in ten minutes a flood (seen second-hand).
  expect(mostInTenMinutes(run)).toBeLessThanOrEqual(10);
  if (end === 'alarm') expect(run.last.state.commanded).toEqual(SAFE);
  expect(doseStatedIn(run)).toBe(end === 'completed');
  for (const { alarm, timeS } of raisedIn(run)) {
    const action = SPECIFICATION.find(({ id }) => id === alarm)?.action ?? 'abort';
    expect(batchAfter(run, timeS), alarm).toMatch(BATCH_AFTER[action]);
  }
}
