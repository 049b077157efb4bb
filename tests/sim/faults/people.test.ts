/** What people get wrong, and buttons that do. */
import { expect, test } from 'vitest';
import { ladderReading } from '../../../sim/board/ladder.ts';
import { letPersonAct, pressButton, sightOf } from '../../../sim/board/person-at-rig.ts';
import { createRig, lookAtFaults } from '../../../sim/board/rig.ts';
import { takeFrame } from '../../../sim/board/sampling.ts';
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

const SHOWN = 'ask-clear';

/** What the board is told of NO, YES, MORE and HOLD, pressed and let go one after the other. */
function toldOf(faults: readonly Fault[]) {
  const { rig, show } = rigWith(faults);
  show(SHOWN);
  const first = takeFrame(rig, []);
  for (const button of ['no', 'yes', 'more', 'hold'] satisfies Button[]) pressButton(rig, button);
  const { pressed } = takeFrame(rig, []);
  return { atRest: first.ladder, told: [...first.pressed, ...pressed] };
}

test.each([
  { kinds: [], atRest: 'released', told: ['no', 'yes', 'more', 'hold'] },
  // Beside a button that stays down only HOLD is read; what stays down is told once.
  { kinds: ['yes-stuck'], atRest: 'yes', told: ['yes', 'hold'] },
  { kinds: ['no-stuck'], atRest: 'no', told: ['no', 'hold'] },
  { kinds: ['hold-stuck'], atRest: 'hold', told: ['hold'] },
  { kinds: ['ladder-shorted'], atRest: 'hold', told: ['hold'] },
  { kinds: ['ladder-open'], atRest: 'open', told: [] },
  { kinds: ['ladder-wet'], atRest: 'between', told: ['hold'] },
  // A quarter more is no button any more, and YES in its place is YES.
  { kinds: ['no-drifts'], atRest: 'released', told: ['yes', 'more', 'hold'] },
  { kinds: ['no-reads-yes'], atRest: 'released', told: ['yes', 'yes', 'more', 'hold'] },
] as const)('of NO, YES, MORE and HOLD the board is told $told with $kinds', (row) => {
  expect(toldOf(row.kinds.map((kind) => fault(kind)))).toEqual({
    atRest: row.atRest,
    told: row.told,
  });
});

test('NO is NO within 9 % of its resistor and reads between two buttons beyond', () => {
  const readingOf = (amount: number) => {
    const { rig, show } = rigWith([fault('no-drifts', { amount })]);
    show(SHOWN);
    pressButton(rig, 'no');
    const { ladder, pressed } = takeFrame(rig, []);
    return [ladder, pressed];
  };
  for (const amount of [0.92, 1, 1.08]) expect(readingOf(amount)).toEqual(['no', ['no']]);
  for (const amount of [0.88, 1.12, 1.5]) expect(readingOf(amount)).toEqual(['between', []]);
});

test('no resistor of NO reads as YES before it has read as nothing and as MORE', () => {
  const read: (string | null)[] = [];
  for (let times = 1; times < 4; times *= 1.01) {
    const ladder = ladderReading(['no'], [fault('no-drifts', { amount: times })]);
    if (ladder !== read.at(-1)) read.push(ladder);
  }
  expect(read).toEqual(['no', 'between', 'more', 'between', 'yes', 'between']);
});

test('idle hands say YES and leave the work undone, and another step is done', () => {
  const idle = fault('hands-idle', { from: { phase: 'close-seal', afterS: 0 }, lastsS: 10 });
  const { rig, show } = rigWith([idle]);
  show('close-seal');
  pressButton(rig, 'yes');
  expect(rig.fingers).toEqual(['yes']);
  expect(rig.plant.setup.sealed).toBe(false);
  rig.plant.step += 11_000;
  show('connect-hose');
  pressButton(rig, 'yes');
  expect(rig.plant.setup.hoseOn).toBe(true);
});

test('a film that is left off is not on', () => {
  const { rig, show } = rigWith([fault('film-left-off')]);
  show('cover-fill');
  pressButton(rig, 'yes');
  expect(rig.plant.setup.filmOn).toBe(false);
});

test('a film that is left on keeps the resin of the pit out, and is still there after the scrape', () => {
  const { rig, show } = rigWith([fault('film-left-on')]);
  const { setup } = rig.plant;
  setup.filmOn = true;
  for (const phase of ['uncover-fill', 'fill-pit', 'scrape'] as const) {
    show(phase);
    pressButton(rig, 'yes');
  }
  expect(setup).toMatchObject({ filmOn: true, pitFilled: false, shieldClosed: false });
  expect(sightOf(rig).level).toBe(false);
});

/** What fingers press in front of steps shown one after the other, and when, s after each began. */
function pressedAt(faults: readonly Fault[], technician: 'scripted' | 'person', forS = 2.5) {
  const { rig, show } = rigWith(faults, technician);
  const pressed: (readonly [PhaseId, Button, number])[] = [];
  for (const phase of ['clean-pit', 'close-seal'] as const) {
    show(phase);
    if (technician === 'person') pressButton(rig, 'yes');
    for (let ms = 0; ms < 1000 * forS; ms += 50) {
      letPersonAct(rig);
      for (const button of rig.fingers.splice(0)) pressed.push([phase, button, ms / 1000]);
      rig.plant.step += 50;
    }
  }
  return { rig, pressed };
}

test('an early YES comes 0.4 s after each step is shown, without the work of the step', () => {
  const { rig, pressed } = pressedAt([fault('yes-early')], 'scripted');
  expect(pressed).toEqual([
    ['clean-pit', 'yes', 0.4],
    ['close-seal', 'yes', 0.4],
  ]);
  expect(rig.plant.setup.sealed).toBe(false);
  expect(pressedAt([], 'scripted').pressed).toEqual([]);
});

test('an early YES is none in the middle of a step that was on the display before', () => {
  const late = fault('yes-early', { from: { phase: 'clean-pit', afterS: 1 } });
  expect(pressedAt([late], 'scripted').pressed).toEqual([['close-seal', 'yes', 0.4]]);
});

test('a double press is the same button again after 0.25 s, and its work is done once', () => {
  const { rig, pressed } = pressedAt([fault('double-press')], 'person');
  expect(pressed.map(([, button, atS]) => [button, atS])).toEqual([
    ['yes', 0],
    ['yes', 0.25],
    ['yes', 0],
    ['yes', 0.25],
  ]);
  expect(rig.plant.setup.sealed).toBe(true);
});

test('who has walked off presses nothing, and takes up the step on the display when back', () => {
  const off = fault('walks-off', { lastsS: 100 });
  const { rig, pressed } = pressedAt([off], 'scripted', 40);
  expect(pressed).toEqual([]);
  for (let ms = 0; ms < 60_000 && rig.fingers.length === 0; ms += 50) {
    rig.plant.step += 50;
    lookAtFaults(rig);
    letPersonAct(rig);
  }
  expect(rig.fingers).toEqual(['yes']);
  expect(rig.plant.step).toBeGreaterThan(100_000);
  expect(rig.plant.setup.sealed).toBe(true);
});

test('who says that all is well calls a break clear in which nothing was filled', () => {
  const answer = (faults: readonly Fault[]): readonly Button[] => {
    const { rig, show } = rigWith(faults, 'scripted');
    show('ask-clear');
    for (let tick = 0; tick < 400 && rig.fingers.length === 0; tick++) {
      rig.plant.step += 50;
      letPersonAct(rig);
    }
    return rig.fingers;
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
