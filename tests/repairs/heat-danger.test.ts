import { describe, expect, test } from 'vitest';
import { runRepair } from '../bench.ts';

/** Toughness over the beginning of slow growth, 0.75 and 0.25 MPa sqrt(m) (from memory). */
const TOUGHNESS_RATIO = 3;

/** Greatest danger at the leg's tip, while the pane is worked on, and when an alarm came first. */
function dangerOf(faults: readonly string[]) {
  let greatest = 0;
  let atAlarm: number | null = null;
  const run = runRepair({
    faults,
    watch: ({ events }, board) => {
      const slowGrowthRatio = board.view().truth.slowGrowthRatio();
      greatest = Math.max(greatest, slowGrowthRatio);
      if (events.some((event) => event.kind === 'alarm' && event.to === 'unacknowledged')) {
        atAlarm ??= slowGrowthRatio;
      }
      return false;
    },
  });
  return { run, greatest, atAlarm };
}

describe('heat at the tip of the longest leg, in the plant', () => {
  test('stays far below slow growth in a nominal repair, lamp and pressure included', () => {
    const { greatest } = dangerOf([]);
    console.info(`nominal: at most ${greatest.toFixed(2)} of slow growth`);
    expect(greatest).toBeGreaterThan(0.05);
    expect(greatest).toBeLessThan(0.8);
  });

  // The unit cannot take the gun away. On the upper bound of K this gun is past slow growth when the
  // rate has been told from noise, and past the toughness if it stays.
  test('is alarmed well before an air gun takes it to the toughness', () => {
    const { greatest, atAlarm } = dangerOf(['heated-too-fast']);
    console.info(`air gun: ${atAlarm} at the first alarm, at most ${greatest.toFixed(2)}`);
    expect(atAlarm).not.toBeNull();
    expect(atAlarm).toBeLessThan(0.6 * TOUGHNESS_RATIO);
  });
});
