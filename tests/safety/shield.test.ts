/** The shield is watched all the way from the lamp's light to the light after a hold. */
import { expect, test } from 'vitest';
import { SAFE } from '../../src/core/frame.ts';
import type { Repair } from '../../src/procedure/repair/repair-state.ts';
import { pass, passUntil, type Scene, tick, type Unit } from '../steered-unit.ts';
import { repairIn } from '../steering.ts';

const OPEN: Scene = { switches: { shieldClosed: false } };
const stepsOf = ({ log }: Unit<Repair>) =>
  log.flatMap((event) =>
    event.kind === 'alarm' && event.alarm === 'shield-open' ? [event.to] : [],
  );
const lit = () =>
  passUntil(repairIn('cure-fill'), 2, {}, ({ step }) => step?.outputs.lampEnabled === true);

test('open, it is told once and stands for as long as the unit waits', () => {
  const waiting = pass(lit(), 20, OPEN);
  expect(waiting.state.batch).toBe('held');
  expect(stepsOf(waiting)).toEqual(['unacknowledged']);
});

const STUCK: Scene = { switches: { shieldClosed: true } };
const notShown = () => pass(repairIn('cure-fill', { scene: STUCK }), 3, STUCK);
const litIn = (unit: Unit<Repair>) =>
  unit.log.some((event) => event.kind === 'alarm' && event.alarm === 'shield-not-shown')
    ? unit.state.batch
    : 'no alarm';

test('never seen open, it keeps the lamp off and the job is held', () => {
  const waiting = notShown();
  expect(litIn(waiting)).toBe('held');
  expect(waiting.state.watch.lampOnForS).toBe(0);
  expect(waiting.state.commanded).toEqual(SAFE);
});

test('opened once and closed, it is believed and a person lets the cure go on', () => {
  let unit = pass(pass(notShown(), 1, OPEN), 1);
  for (let n = 0; n < 12 && unit.state.batch !== 'running'; n++) {
    unit = tick(pass(unit, 1.6), { pressed: ['yes'] });
  }
  expect(passUntil(unit, 3, {}, ({ state }) => state.commanded.lampEnabled).state.batch).toBe(
    'running',
  );
});

test('seen open before the first cure, it must be seen open again before the second', () => {
  const second = repairIn('cure');
  expect(passUntil(second, 2, {}, ({ state }) => state.commanded.lampEnabled).state.batch).toBe(
    'running',
  );
  // Stuck after the first cure.
  let unit = repairIn('uncover-fill');
  for (let n = 0; n < 40 && unit.state.procedure.phase !== 'cure'; n++) {
    unit = tick(pass(unit, 1.6, STUCK), { ...STUCK, pressed: ['yes'] });
  }
  expect(unit.state.procedure.phase).toBe('cure');
  const held = pass(unit, 3, STUCK);
  expect(held.state.batch).toBe('held');
  expect(held.state.commanded).toEqual(SAFE);
});

test('opened just as a person lets the cure go on, it holds in the same tick', () => {
  let unit = pass(pass(lit(), 1, OPEN), 2);
  while (unit.state.batch !== 'restarting') unit = tick(pass(unit, 1.6), { pressed: ['yes'] });
  const opened = tick(pass(unit, 0.5), OPEN);
  expect(opened.state.batch).toMatch(/^(holding|held)$/);
  expect(stepsOf(opened).at(-1)).toBe('unacknowledged');
});
