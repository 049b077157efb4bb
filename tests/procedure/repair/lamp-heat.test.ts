/** What the record states of the lamp's warmth, through the controller. */
import { expect, test } from 'vitest';
import type { Event } from '../../../src/core/events.ts';
import type { Measurement } from '../../../src/core/measurements.ts';
import { passUntil } from '../../steered-unit.ts';
import { repairIn } from '../../steering.ts';

const valuesOf = (log: readonly Event[], name: Measurement): readonly number[] =>
  log.flatMap((event) => (event.kind === 'measured' && event.name === name ? [event.value] : []));

/** A thermistor's reading is within this of what it sees: a step of the converter. */
const STEP_K = 0.12;

// The hand-made unit's pane has 23 C and its lamp 25 C; the job sheet states air of 22 C.
test('at the first light the record states how far glass and heat sink stand over the air', () => {
  const { log } = repairIn('cure-fill');
  const [[glassK, ...glassMore], [sinkK, ...sinkMore]] = [
    valuesOf(log, 'glassOverAirK'),
    valuesOf(log, 'heatSinkOverAirK'),
  ];
  expect([glassMore, sinkMore]).toEqual([[], []]);
  expect(Math.abs((glassK ?? 0) - 1)).toBeLessThan(STEP_K);
  expect(Math.abs((sinkK ?? 0) - 3)).toBeLessThan(STEP_K);
  expect(valuesOf(log, 'glassWarmedK')).toEqual([]);
});

// The hand-made lamp warms the glass by 2.9 K with a time constant of 175 s.
test('at the end of each cure it states how far they warmed, and what is usual', () => {
  const cured = passUntil(
    repairIn('cure-fill'),
    900,
    {},
    ({ state }) => state.procedure.phase !== 'cure-fill',
  );
  const last = (name: Measurement): number => valuesOf(cured.log, name).at(-1) ?? Number.NaN;
  const litS = last('lampOnS');
  expect(litS).toBeGreaterThan(5);
  const warmedK = 2.9 * (1 - Math.exp(-litS / 175));
  expect(Math.abs(last('glassWarmedK') - warmedK)).toBeLessThan(STEP_K);
  // A sound lamp warms both as it usually does.
  expect(Math.abs(last('glassUsuallyWarmedK') - last('glassWarmedK'))).toBeLessThan(2 * STEP_K);
  expect(last('heatSinkWarmedK')).toBeGreaterThan(1);
  expect(Math.abs(last('heatSinkUsuallyWarmedK') - last('heatSinkWarmedK'))).toBeLessThan(1);
  expect(valuesOf(cured.log, 'heatSinkCooledK')).toEqual([]);
});

test('at its result it states how far the heat sink cooled after the lamp', () => {
  const { log } = repairIn('result');
  expect(valuesOf(log, 'heatSinkCooledK')).toHaveLength(1);
  // Both cures had their say.
  expect(valuesOf(log, 'glassWarmedK')).toHaveLength(2);
  expect(valuesOf(log, 'glassOverAirK')).toHaveLength(1);
});
