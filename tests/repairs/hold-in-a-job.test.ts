/**
 * HOLD on the plant: where vacuum, pressure or light act, the pane is at the air's pressure and dark
 * within the time of the vent, and nothing follows until a person has said why.
 */
import { expect, test } from 'vitest';
import type { PhaseId } from '../../src/core/phases.ts';
import { runRepair } from '../bench.ts';

const AIR_PA = 100_600;
/** The vent empties a full chamber in under a second; a press is told in the next frame. */
const VENTED_WITHIN_S = 1.05;
/** So near the air's pressure a pane carries nothing. */
const AT_AIR_WITHIN_PA = 1_000;

/** Lets a scripted person work until the phase, and presses HOLD two seconds after it began. */
function heldIn(phase: PhaseId) {
  let pressedAtS: number | null = null;
  let before: { readonly awayPa: number; readonly lit: boolean } | null = null;
  const { last, board, events } = runRepair({
    watch: ({ frame, state }, bench) => {
      const { procedure } = state;
      const { pressurePa, irradianceWPerM2 } = bench.view().truth;
      if (pressedAtS === null && procedure.phase === phase && procedure.elapsedS > 2) {
        pressedAtS = frame.timeS;
        before = { awayPa: Math.abs(pressurePa - AIR_PA), lit: irradianceWPerM2 > 1 };
        bench.press('hold');
      }
      return pressedAtS !== null && frame.timeS >= pressedAtS + VENTED_WITHIN_S;
    },
  });
  const { pressurePa, irradianceWPerM2 } = board.view().truth;
  const { batch } = last.snapshot;
  const answers = events.filter(
    ({ kind, timeS }) => kind === 'answer' && timeS > (pressedAtS ?? 0),
  );
  return { before, awayPa: Math.abs(pressurePa - AIR_PA), irradianceWPerM2, batch, answers };
}

test.each(['vacuum-dwell', 'ask-bubbles', 'pressure-dwell'] as const)(
  'HOLD in %s: the pane is at the air’s pressure within the vent’s time',
  (phase) => {
    const { before, awayPa, batch, answers } = heldIn(phase);
    expect(before).toMatchObject({ lit: false });
    expect(before!['awayPa']).toBeGreaterThan(50_000);
    expect(awayPa).toBeLessThan(AT_AIR_WITHIN_PA);
    expect(batch).toMatch(/^h(olding|eld)$/);
    expect(answers).toEqual([]);
  },
);

test('HOLD in the cure: no light is left', () => {
  const { before, irradianceWPerM2, batch } = heldIn('cure');
  expect(before).toMatchObject({ lit: true });
  expect(irradianceWPerM2).toBeLessThan(0.01);
  expect(batch).toMatch(/^h(olding|eld)$/);
});
