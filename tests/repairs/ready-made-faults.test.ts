/** Each ready-made fault in a whole repair: its own alarm, no other, and the end that it should have. */
import { describe, expect, test } from 'vitest';
import { FAULT_PRESETS } from '../../sim/faults/faults.ts';
import { SAFE } from '../../src/core/frame.ts';
import { type BenchRun, runRepair } from '../bench.ts';
import { SPECIFICATION } from '../safety/specification.ts';
import { doseStatedIn, LIARS } from './seeded.ts';

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

const EXPECTED_ALARMS: Readonly<Record<string, { alarms: readonly string[]; end: string }>> = {
  'hot-glass': { alarms: ['glass-hot'], end: 'completed' },
  // Too fast for the warning, which waits for 2 s near the limit.
  'heated-too-fast': { alarms: ['heated-too-fast', 'spot-hot'], end: 'completed' },
  daylight: { alarms: ['daylight-near', 'daylight-set'], end: 'completed' },
  'dead-lamp': { alarms: ['lamp-no-light'], end: 'completed' },
  'stuck-lamp': { alarms: ['light-gap-failed', 'light-lamp-off'], end: 'alarm' },
  'hot-lamp': { alarms: ['heat-sink-warm'], end: 'completed' },
  'dead-pump': { alarms: ['pump-no-effect'], end: 'completed' },
  'runaway-pump': { alarms: ['set-point-passed'], end: 'stopped-by-person' },
  'stuck-vent': { alarms: ['vent-no-effect'], end: 'alarm' },
  'stuck-pressure-sensor': { alarms: ['pressure-sensor'], end: 'completed' },
  'drifting-sensor': { alarms: ['not-vented'], end: 'completed' },
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

describe('every ready-made fault', () => {
  test('has a test of a whole repair', () => {
    const above = [
      'leaky-seal',
      'wet-break',
      'outgassing',
      'cold-pane',
      'weak-lamp',
      'worn-out-lamp',
      'hose-off',
      'shield-opened',
      'emergency-stop',
    ];
    expect([...Object.keys(EXPECTED_ALARMS), ...above].sort()).toEqual(
      Object.keys(FAULT_PRESETS).sort(),
    );
  });

  test.each(Object.entries(EXPECTED_ALARMS))(
    '%s raises its alarm and no other, and ends as it should',
    (name, { alarms, end }) => {
      const run = runRepair({ faults: [name] });
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
    },
  );
});

/** Toughness over the beginning of slow growth, 0.75 and 0.25 MPa sqrt(m) (from memory). */
const TOUGHNESS_RATIO = 3;

// The unit cannot take the gun away. On the upper bound of K this gun is past slow growth when the
// rate has been told from noise, and past the toughness if it stays.
test('an air gun is alarmed well before it takes the tip of a leg to the toughness', () => {
  const { tip } = runRepair({
    faults: ['heated-too-fast'],
    watchesTip: true,
    watch: ({ events }) => events.some(({ kind }) => kind === 'alarm'),
  });
  expect(tip?.atFirstAlarm).toBeGreaterThan(0);
  expect(tip?.atFirstAlarm).toBeLessThan(0.6 * TOUGHNESS_RATIO);
});

test('light or time that cannot be believed ends no cure as met', () => {
  expect(LIARS.map((name) => EXPECTED_ALARMS[name]?.end)).not.toContain('completed');
});
