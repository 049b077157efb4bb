/** Faults of sensors and their seats, of the lamp, and of clocks and converter. */
import type { FaultKind } from '../../../sim/faults/fault-kinds.ts';
import type { Channel, Frame } from '../../../src/core/frame.ts';
import { LIGHT } from '../board/lock-step.ts';
import { type Case, counts, lagS, PRESS_SLOWLY, truth } from './fault-case.ts';

const irradiance = truth('irradianceWPerM2');
const countsOf =
  (channel: Channel) =>
  (frame: Frame): number =>
    frame.counts[channel] ?? Number.NaN;

export const SENSING_CASES = {
  'sensor-drift': { fault: { amount: 60 }, outputs: {}, seen: counts, atLeast: 8, recoverS: 1 },
  'sensor-slow': {
    fault: { amount: 60 },
    outputs: PRESS_SLOWLY,
    seen: counts,
    atLeast: 20,
    recoverS: 1,
  },
  'sensor-noise': { fault: { amount: 100 }, outputs: {}, seen: counts, atLeast: 10, recoverS: 1 },
  'sensor-saturates': {
    fault: { amount: 200 },
    outputs: {},
    seen: counts,
    atLeast: 100,
    recoverS: 1,
  },
  // The pane came in from the sun, far warmer than the air.
  'glass-thermistor-off': {
    alongside: [{ kind: 'hot-pane', amount: 325, from: { atS: 0 } }],
    outputs: {},
    seen: countsOf('glassTemperature'),
    atLeast: 150,
    recoverS: 1,
  },
  'sink-thermistor-off': {
    outputs: LIGHT,
    seen: countsOf('heatSinkTemperature'),
    atLeast: 20,
    recoverS: 1,
  },
  'thermistors-exchanged': {
    alongside: [{ kind: 'hot-pane', amount: 325, from: { atS: 0 } }],
    outputs: {},
    seen: countsOf('heatSinkTemperature'),
    atLeast: 150,
    recoverS: 1,
  },
  'stray-light': { outputs: {}, seen: countsOf('irradiance'), atLeast: 39, recoverS: 1 },
  'reference-drifts': { outputs: {}, seen: countsOf('supplyVoltage'), atLeast: 60, recoverS: 1 },
  // The sensor sees the lamp as before; the pane under it stays cool.
  'lamp-beside': {
    fault: { amount: 0 },
    outputs: LIGHT,
    seen: truth('glassK'),
    atLeast: 0.1,
    recoverS: 300,
  },
  'lamp-undimmed': {
    outputs: { ...LIGHT, lampRatio: 0.3 },
    seen: irradiance,
    atLeast: 100,
    recoverS: 1,
  },
  'lamp-flickers': {
    fault: { amount: 0.4 },
    outputs: LIGHT,
    seen: irradiance,
    atLeast: 150,
    recoverS: 1,
  },
  'converter-stall': { outputs: PRESS_SLOWLY, seen: counts, atLeast: 50, recoverS: 1 },
  'host-clock': { outputs: {}, seen: lagS, atLeast: 0.49, recoverS: 1 },
  'host-clock-jump': { outputs: {}, seen: lagS, atLeast: 59.9, recoverS: 1 },
  'frames-reordered': { outputs: {}, seen: ({ gap }) => Number(gap), atLeast: 1, recoverS: 1 },
  // What the board tells of it stays until the host clears it.
  'board-reset-loop': {
    outputs: {},
    seen: ({ trips }) => Number(trips.includes('watchdog')),
    atLeast: 1,
    recoverS: 1,
    stays: true,
  },
} as const satisfies Readonly<Partial<Record<FaultKind, Case>>>;
