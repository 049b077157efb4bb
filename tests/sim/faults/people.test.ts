/** What people get wrong, and buttons that do. */
import { expect, test } from 'vitest';
import { createRig, letPersonAct, lookAtFaults, pressButton } from '../../../sim/board/rig.ts';
import type { Fault } from '../../../sim/faults/faults.ts';
import type { Button } from '../../../src/core/frame.ts';
import { type PhaseId, STEP_NUMBERS } from '../../../src/core/phases.ts';
import { scenarioWith, screen } from '../board/lock-step.ts';

const fault = (kind: Fault['kind'], rest: Partial<Fault> = {}): Fault => ({
  kind,
  from: { atS: 0 },
  ...rest,
});

function rigWith(faults: readonly Fault[], technician: 'scripted' | 'person' = 'person') {
  const rig = createRig(scenarioWith({ faults, technician }));
  const show = (phase: PhaseId): void => {
    rig.display = screen(`${STEP_NUMBERS[phase]} Demo`);
    lookAtFaults(rig);
  };
  return { rig, show };
}

test.each([
  { kinds: [], told: ['no', 'yes', 'more'] },
  { kinds: ['yes-stuck'], told: ['yes'] },
  // NO shows again each time YES is let go.
  { kinds: ['no-stuck'], told: ['no', 'yes', 'no'] },
  { kinds: ['no-reads-yes'], told: ['yes', 'yes', 'more'] },
] as const)('of NO, YES and MORE the board is told $told with $kinds', ({ kinds, told }) => {
  const { rig, show } = rigWith(kinds.map((kind) => fault(kind)));
  show('ask-clear');
  for (const button of ['no', 'yes', 'more'] satisfies Button[]) pressButton(rig, button);
  expect(rig.pressed).toEqual(told);
});

test('idle hands say YES and leave the work undone, and another step is done', () => {
  const idle = fault('hands-idle', { from: { phase: 'close-seal', afterS: 0 }, lastsS: 10 });
  const { rig, show } = rigWith([idle]);
  show('close-seal');
  pressButton(rig, 'yes');
  expect(rig.pressed).toEqual(['yes']);
  expect(rig.plant.setup.sealed).toBe(false);
  rig.plant.step += 11_000;
  show('connect-hose');
  pressButton(rig, 'yes');
  expect(rig.plant.setup.hoseOn).toBe(true);
});

test('a film that is left off is not on, and the injector is off all the same', () => {
  const { rig, show } = rigWith([fault('film-left-off')]);
  show('cover-fill');
  pressButton(rig, 'yes');
  expect(rig.plant.setup.filmOn).toBe(false);
  expect(rig.plant.setup.injectorOff).toBe(true);
});

test('who says that all is well calls a break clear in which nothing was filled', () => {
  const answer = (faults: readonly Fault[]): readonly Button[] => {
    const { rig, show } = rigWith(faults, 'scripted');
    show('ask-clear');
    for (let tick = 0; tick < 400 && rig.pressed.length === 0; tick++) {
      rig.plant.step += 50;
      letPersonAct(rig);
    }
    return rig.pressed;
  };
  expect(answer([])).toEqual(['no']);
  expect(answer([fault('says-all-well')])).toEqual(['yes']);
});

test('resin of a wrong bottle needs so many times the light', () => {
  const right = createRig(scenarioWith()).place.world.curing;
  const wrong = createRig(scenarioWith({ faults: [fault('wrong-bottle', { amount: 4 })] }));
  expect(wrong.place.world.curing.criticalJPerM2).toBeCloseTo(4 * right.criticalJPerM2, 9);
  expect(wrong.place.world.curing.rate).toBeCloseTo(right.rate / 4, 12);
});
