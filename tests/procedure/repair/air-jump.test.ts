/** The air at power-up, held against that of the unit's last job. */
import { describe, expect, test } from 'vitest';
import { REPAIR } from '../../../src/procedure/repair/repair.ts';
import { APART } from '../../control/apart-driver.ts';
import { pass, passUntil, tick, unitAtRest } from '../../steered-unit.ts';
import { repairIn } from '../../steering.ts';

const AIR_PA = 100_600;
/** The first phase after the self-test. */
const phaseAfterTest = (airLastJobPa: number | null, airPa = AIR_PA) => {
  const unit = { ...APART.unit, airLastJobPa };
  const start = unitAtRest(REPAIR, { ...APART, unit }, airPa);
  const isOver = ({ state }: typeof start) => state.procedure.phase !== 'self-test';
  return passUntil(start, 8, {}, isOver).state.procedure.phase;
};

describe('a person is asked whether the unit was moved', () => {
  test.each([
    // The converter's steps are 0.49 kPa, and the reading is a step off at most.
    [AIR_PA, 'job-sheet'],
    [AIR_PA + 2_500, 'job-sheet'],
    [AIR_PA - 2_500, 'job-sheet'],
    [AIR_PA + 3_500, 'air-jump'],
    [AIR_PA - 3_500, 'air-jump'],
    [null, 'job-sheet'],
  ])('after a last job in air of %s Pa the self-test leads to %s', (lastPa, phase) => {
    expect(phaseAfterTest(lastPa)).toBe(phase);
  });

  test('when the sensor reads 26 kPa low, which looks like 2,500 m', () => {
    expect(phaseAfterTest(AIR_PA, AIR_PA - 26_000)).toBe('air-jump');
  });
});

describe('the answer', () => {
  const asked = pass(repairIn('air-jump'), 1.6);

  test('YES is recorded with both pressures, and the vacuum is planned for this air', () => {
    const { state, log } = tick(asked, { pressed: ['yes'] });
    expect(state.procedure.phase).toBe('vacuum-note');
    expect(log).toContainEqual(
      expect.objectContaining({ kind: 'answer', phase: 'air-jump', answer: 'yes' }),
    );
    const before = log.find((e) => e.kind === 'measured' && e.name === 'airLastJobPa');
    expect(before).toMatchObject({ value: 100_600 });
    expect(state.procedure.atmospherePa).toBeCloseTo(79_500, -3);
  });

  test('NO asks once more, and YES to that ends the job before any hand work', () => {
    const held = pass(tick(asked, { pressed: ['no'] }), 8);
    expect(held.state.batch).toBe('held');
    expect(held.step?.outputs.display[1]).toBe('End the job? YES    ');
    const { state } = pass(tick(held, { pressed: ['yes'] }), 8);
    expect(state).toMatchObject({ batch: 'stopped', endReason: 'stopped-by-person' });
    // NO goes back, and from there the question is asked anew.
    const back = pass(tick(held, { pressed: ['no'] }), 2);
    expect(back.state.batch).toBe('held');
    const again = pass(tick(back, { pressed: ['yes'] }), 2);
    expect(again.state).toMatchObject({ batch: 'running', procedure: { phase: 'air-jump' } });
  });
});
