/** The shield is watched all the way from the lamp's light to the light after a hold. */
import { expect, test } from 'vitest';
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

test('opened just as a person lets the cure go on, it holds in the same tick', () => {
  let unit = pass(pass(lit(), 1, OPEN), 2);
  while (unit.state.batch !== 'restarting') unit = tick(pass(unit, 1.6), { pressed: ['yes'] });
  const opened = tick(pass(unit, 0.5), OPEN);
  expect(opened.state.batch).toMatch(/^(holding|held)$/);
  expect(stepsOf(opened).at(-1)).toBe('unacknowledged');
});
