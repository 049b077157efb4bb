/**
 * The road from physics to counts and back: what an ideal converter and Gaussian noise must leave
 * behind by the textbook, and what the median of three does to noise. The simulator's sensors are
 * put before the controller's decoding; neither knows the other.
 */

import { PERFECT, type Physical, sampleCounts } from '../../../sim/board/sensors.ts';
import { createChance } from '../../../sim/random.ts';
import { type Frame, FULL_SCALE_COUNTS, SAFE } from '../../../src/core/frame.ts';
import { pressurePaOf, supplyVOf } from '../../../src/signal/channels.ts';
import { INITIAL_SIGNAL_MEMORY, stepDecode } from '../../../src/signal/decode.ts';
import { DEFAULT_UNIT } from '../../configs.ts';
import { HEALTHY_FRAME, HEALTHY_TRUTH } from '../../frames.ts';
import type { CheckGroup } from '../check.ts';

const { channels } = DEFAULT_UNIT;
const SPAN_PA = 400_000;
const FULL_V = 20;
/** The live range of 0.5 to 4.5 V is eight tenths of full scale. */
const STEP_PA = SPAN_PA / 0.8 / FULL_SCALE_COUNTS;
const NOISE_COUNTS = 0.5;
const MANY = 20_000;
const MEDIANS = 40_000;

const SILENT = { uniform: () => 0.5, gaussian: () => 0 };
const AT_REST: Physical = {
  ...HEALTHY_TRUTH,
  pressurePa: 100_000,
  supplyV: 12,
};

function deviation(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
}

const STEPS = 800;
const POINTS_A_STEP = MANY / STEPS;
/** Half way between counts 102 and 103, so that only whole steps are crossed. */
const FIRST_PA = (102.5 - FULL_SCALE_COUNTS / 10) * STEP_PA;

/** Read less true over a slow rise through nearly the whole range, Pa. */
function pressureErrors(noise: typeof SILENT): number[] {
  return Array.from({ length: MANY }, (_, i) => {
    const pressurePa = FIRST_PA + ((i + 0.5) / POINTS_A_STEP) * STEP_PA;
    const { pressure } = sampleCounts({ ...AT_REST, pressurePa }, PERFECT, noise);
    return (pressurePaOf(pressure, channels) ?? Number.NaN) - pressurePa;
  });
}

/** Phases that are multiples of it lie evenly, however many there are. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** A sine over the whole range of the supply channel, which is not live-zero: signal over error. */
function signalToNoiseDb(): number {
  const errors = Array.from({ length: MANY }, (_, i) => {
    const supplyV = (FULL_V / 2) * (1 + Math.sin(2 * Math.PI * GOLDEN * i));
    const { supplyVoltage } = sampleCounts({ ...AT_REST, supplyV }, PERFECT, SILENT);
    return supplyVOf(supplyVoltage, channels) - supplyV;
  });
  return 20 * Math.log10(FULL_V / 2 / Math.SQRT2 / deviation(errors));
}

/** Large against a count, so that the converter's steps do not matter. */
const MEDIAN_NOISE_COUNTS = 30;

/** Deviation of what is decoded over that of what was sampled. */
function medianGain(): number {
  const chance = createChance(1, 'noise');
  const decoded: number[] = [];
  let memory = INITIAL_SIGNAL_MEMORY;
  for (let i = 0; i < MEDIANS; i++) {
    const pressure = 500 + Math.round(MEDIAN_NOISE_COUNTS * chance.gaussian());
    const timeS = i * 0.05;
    const counts: Frame['counts'] = { ...HEALTHY_FRAME.counts, pressure };
    const frame: Frame = { ...HEALTHY_FRAME, timeS, sampledAtS: timeS, counts };
    const next = stepDecode(memory, frame, SAFE, channels);
    memory = next.memory;
    if (next.reading.pressurePa.ok) decoded.push(next.reading.pressurePa.value / STEP_PA);
  }
  return deviation(decoded) / MEDIAN_NOISE_COUNTS;
}

export const CONVERTER: CheckGroup = {
  title: 'converter, noise and median',
  rows: [
    {
      what: 'error of an ideal converter over the pressure range',
      actual: () => deviation(pressureErrors(SILENT)),
      expected: STEP_PA / Math.sqrt(12),
      // A grid of so many points a step falls short by half the inverse of its square.
      tolerance: STEP_PA / Math.sqrt(12) / POINTS_A_STEP ** 2,
      unit: 'Pa',
      source: 'Bennett, Bell Syst. Tech. J. 27 (1948) 446-472: q/√12 (from memory)',
      obtained: 'computed',
    },
    {
      what: 'error with Gaussian noise of half a count',
      actual: () => deviation(pressureErrors(createChance(1, 'noise'))) / STEP_PA,
      expected: Math.sqrt(NOISE_COUNTS ** 2 + 1 / 12),
      // Four standard errors of a deviation from so many samples, 1/√(2 N).
      tolerance: (4 * Math.sqrt(NOISE_COUNTS ** 2 + 1 / 12)) / Math.sqrt(2 * MANY),
      unit: 'counts',
      source: "Sheppard's correction: the variances of noise and rounding add",
      obtained: 'computed',
    },
    {
      what: 'signal over error of a full-range sine through ten bits',
      actual: signalToNoiseDb,
      expected: 6.02 * 10 + 1.76,
      // The formula's own two decimals, ten times over for the bits.
      tolerance: 0.05,
      unit: 'dB',
      source: 'SNR = 6.02 N + 1.76 dB of an ideal converter, textbooks',
      obtained: 'from memory',
    },
    {
      what: 'what the median of three leaves of Gaussian noise',
      actual: medianGain,
      expected: Math.sqrt(1 - Math.sqrt(3) / Math.PI),
      // Four standard errors; neighbouring medians share samples, which makes 1.9 of each variance.
      tolerance: 4 * 0.67 * Math.sqrt(1.9 / (2 * MEDIANS)),
      unit: 'of its deviation',
      source: 'order statistics: the median of three normal values has variance 1 - √3/π',
      obtained: 'computed',
    },
  ],
};
