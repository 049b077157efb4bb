/** The simulated sensors' errors by closed forms. The converter's are in `converter.ts`. */
import { PERFECT, sensorRatios, type Tolerance } from '../../../sim/board/sensors.ts';
import { FULL_SCALE_COUNTS } from '../../../src/core/frame.ts';
import { pressurePaOf, steinhartHartK } from '../../../src/signal/channels.ts';
import { DEFAULT_UNIT } from '../../configs.ts';
import { HEALTHY_TRUTH } from '../../frames.ts';
import type { CheckGroup, CheckRow } from '../check.ts';

const TRUTH = { ...HEALTHY_TRUTH, irradianceWPerM2: 200, glassK: 298.15 };

/** What a faultless divider and the controller's settings make of a real thermistor: too warm by so much. */
function shownAboveK(errors: Partial<Tolerance>): number {
  const ratioOf = (some: Partial<Tolerance>): number =>
    sensorRatios(TRUTH, { ...PERFECT, ...some }).glassTemperature;
  const { thermistor } = DEFAULT_UNIT.channels;
  const kelvin = (ratio: number): number =>
    steinhartHartK((thermistor.seriesOhm * ratio) / (1 - ratio), thermistor);
  return kelvin(ratioOf(errors)) - kelvin(ratioOf({}));
}

/** Pressure shown less pressure there, through a cable that drops `volts` in each conductor. */
function shownTooHighPa(pressurePa: number, cableDropV: number): number {
  const { pressure } = sensorRatios({ ...TRUTH, pressurePa }, { ...PERFECT, cableDropV });
  const shown = pressurePaOf(pressure * FULL_SCALE_COUNTS, DEFAULT_UNIT.channels);
  return (shown ?? Number.NaN) - pressurePa;
}

const DISSIPATION = 'dissipation constant = P/(T - T0), P = I^2 R (definition seen)';
/** 2.5 V across 10 kohm: 0.625 mW. */
const heatingRow = (mWPerK: number, expected: number, tolerance: number): CheckRow => ({
  what: `self-heating at 25 C, 10 kohm under 2.5 V, ${mWPerK} mW/K`,
  actual: () => shownAboveK({ dissipationWPerK: mWPerK / 1000 }),
  expected,
  tolerance,
  unit: 'K',
  source: DISSIPATION,
  obtained: 'computed',
});
/** Off the match of the two resistances by e, here 4.4 % a kelvin, the power is (1 - e^2/4) as much. */
const secondOrder = (riseK: number): number => 5e-6 + (riseK * (0.044 * riseK) ** 2) / 4;

const CABLE = 'ground lifted by d, supply lowered by 2 d: error (d/Vs)(1 - 2 r)/0.8 of span';
const cableRow = (pressurePa: number, expected: number): CheckRow => ({
  what: `transmitter at ${pressurePa / 1000} kPa, 5 mV lost in each conductor of 5 V`,
  actual: () => shownTooHighPa(pressurePa, 0.005),
  expected,
  tolerance: 1e-6,
  unit: 'Pa',
  source: CABLE,
  obtained: 'computed',
  ...(expected === 0 ? { why: 'the middle of the range does not move; 1 uPa of rounding' } : {}),
});

/** At 25 C a part of this kind changes by 4.39 % a kelvin. */
const SLOPE = 'resistance slope of -4.39 %/K at 25 C in a published curve (seen), three digits';

export const SENSOR_ERRORS: CheckGroup = {
  title: 'errors of the simulated sensors',
  rows: [
    heatingRow(1.5, 0.41667, secondOrder(0.41667)),
    heatingRow(3.5, 0.17857, secondOrder(0.17857)),
    heatingRow(8, 0.078125, secondOrder(0.078125)),
    {
      what: '10 ohm of cable at 25 C',
      actual: () => shownAboveK({ thermistorLeadOhm: 10 }),
      expected: -0.1 / 4.39,
      tolerance: 0.005 * (0.1 / 4.39),
      unit: 'K',
      source: SLOPE,
      obtained: 'computed',
    },
    {
      what: 'series resistor 0.1 % high at 25 C',
      actual: () => shownAboveK({ seriesOhmError: 0.001 }),
      expected: 0.1 / 4.39,
      tolerance: 0.005 * (0.1 / 4.39),
      unit: 'K',
      source: SLOPE,
      obtained: 'computed',
    },
    cableRow(0, 400),
    cableRow(200_000, 0),
    cableRow(400_000, -400),
  ],
};
