/**
 * Resistor dividers and the limits compiled into the firmware, by Ohm's law and the definition of a
 * live-zero transmitter. Tolerance: half a count, because a converter gives whole ones.
 */
import { COMPILED_LIMITS, PRESSURE_LIVE } from '../../../hal/firmata/protocol.ts';
import { PERFECT, sensorRatios } from '../../../sim/board/sensors.ts';
import { FULL_SCALE_COUNTS } from '../../../src/core/frame.ts';
import { celsiusFromK } from '../../../src/core/units.ts';
import { glassKOf, pressurePaOf, supplyVOf, thermistorKOf } from '../../../src/signal/channels.ts';
import { BUTTON_LADDER } from '../../../wiring/pin-map.ts';
import { DEFAULT_UNIT } from '../../configs.ts';
import { HEALTHY_TRUTH } from '../../frames.ts';
import type { CheckGroup, CheckRow } from '../check.ts';

const { channels } = DEFAULT_UNIT;
const OHM = "Ohm's law";

const share = (lowerOhm: number, upperOhm: number): number => lowerOhm / (lowerOhm + upperOhm);

/** The resistors as they are fitted, kΩ; R38 is beside every button. */
const LADDER_KOHM = { no: 8.2, more: 18, yes: 27 } as const;
const REST_KOHM = 68;

const ladderRow = (button: 'no' | 'more' | 'yes'): CheckRow => ({
  what: `middle of the counts that belong to the button ${button.toUpperCase()}`,
  actual: () => {
    const { lowest, highest } = BUTTON_LADDER.bands[button];
    return (lowest + highest) / 2;
  },
  expected: FULL_SCALE_COUNTS * share(1 / (1 / LADDER_KOHM[button] + 1 / REST_KOHM), 10),
  tolerance: 0.5,
  unit: 'counts',
  source: `${OHM}: ${LADDER_KOHM[button]} kΩ beside ${REST_KOHM} kΩ, under 10 kΩ`,
  obtained: 'computed',
});

export const DIVIDERS: CheckGroup = {
  title: 'dividers and compiled limits',
  rows: [
    ladderRow('no'),
    ladderRow('more'),
    ladderRow('yes'),
    {
      what: 'supply of 12 V through 30 kΩ over 10 kΩ, read back',
      actual: () => supplyVOf(FULL_SCALE_COUNTS * ((12 * share(10_000, 30_000)) / 5), channels),
      expected: 12,
      // Rounding of a few operations on doubles.
      tolerance: 1e-14 * 12,
      unit: 'V',
      source: `${OHM}; reference of the converter 5 V`,
      obtained: 'computed',
    },
    {
      what: 'highest pressure that the compiled ceiling lets pass',
      actual: () => (pressurePaOf(COMPILED_LIMITS.pressureCeiling, channels) ?? Number.NaN) / 1000,
      expected: 305,
      // A count is 0.49 kPa, and the ceiling is the last whole one.
      tolerance: 0.49,
      unit: 'kPa',
      source: 'what is stated beside the limit; ratio 0.1 + 0.8 p/span of a live zero',
      obtained: 'computed',
    },
    {
      what: 'hottest heat sink that the compiled floor lets pass',
      actual: () =>
        celsiusFromK(thermistorKOf(COMPILED_LIMITS.heatSinkFloor, channels) ?? Number.NaN),
      expected: 90,
      // A count is 0.4 K there.
      tolerance: 0.4,
      unit: 'C',
      source: 'what is stated beside the limit; thermistor under 10 kΩ',
      obtained: 'computed',
    },
    {
      what: 'hottest glass that the compiled floor lets pass',
      actual: () => celsiusFromK(glassKOf(COMPILED_LIMITS.glassFloor, channels) ?? Number.NaN),
      expected: 70,
      // A count is 0.23 K there.
      tolerance: 0.23,
      unit: 'C',
      source: 'what is stated beside the limit; thermistor under 10 kΩ',
      obtained: 'computed',
    },
    {
      what: 'counts below which the pressure wire is broken',
      actual: () => PRESSURE_LIVE.lowest,
      expected: (0.25 / 5) * FULL_SCALE_COUNTS,
      tolerance: 0.5,
      unit: 'counts',
      source: 'half way between dead (0 V) and live zero (0.5 V)',
      obtained: 'computed',
    },
    {
      what: "ratio of the simulator's thermistor at 25 C under 10 kΩ",
      actual: () => sensorRatios({ ...HEALTHY_TRUTH, glassK: 298.15 }, PERFECT).glassTemperature,
      expected: 0.5,
      // Coefficients of seven digits give 10 kΩ to about 2 parts in 10 000: a tenth of a count.
      tolerance: 1e-4,
      unit: 'of 1',
      source: `${OHM}: 10 kΩ at 25 C by the definition of the part`,
      obtained: 'computed',
    },
  ],
};
