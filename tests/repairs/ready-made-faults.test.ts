/** Each ready-made fault in a short repair; the long test puts it into the demo repair. */
import { describe, expect, test } from 'vitest';
import { FAULT_PRESETS } from '../../sim/faults/faults.ts';
import { runRepair } from '../bench.ts';
import { BRIEF, ONE_CYCLE } from './brief.ts';
import { MISTAKES } from './mistakes.ts';
import { EXPECTED_ALARMS, expectItsAlarm } from './ready-made-faults.ts';
import { LIARS } from './seeded.ts';

describe('every ready-made fault', () => {
  test('has a test of a whole repair', () => {
    const above = [
      'leaky-seal',
      'wet-break',
      'outgassing',
      'cold-pane',
      'hot-glass',
      'weak-lamp',
      'worn-out-lamp',
      'hose-off',
      'shield-opened',
      'emergency-stop',
    ];
    const tested = [...Object.keys(EXPECTED_ALARMS), ...Object.keys(MISTAKES), ...above];
    expect(tested.sort()).toEqual(Object.keys(FAULT_PRESETS).sort());
  });

  test.each(Object.entries(EXPECTED_ALARMS))(
    '%s raises its alarm and no other, and ends as it should',
    (name, row) => expectItsAlarm(name, row, row.wholeCure ? ONE_CYCLE : BRIEF),
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
