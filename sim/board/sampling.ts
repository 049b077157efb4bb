/**
 * Builds a frame: one sample of every sensor and switch, or the last one again while the link is
 * mute. The faults decide which sensors lie; the controller interprets the frame.
 */
import { type Channel, type Frame, NEVER_HEARD, type Trip } from '../../src/core/frame.ts';
import { has, hostClockErrorS } from '../faults/fault-effects.ts';
import { applyToCounts, applyToSeats } from '../faults/sensor-effects.ts';
import { STEPS_PER_S, timeOfS } from '../plant/plant.ts';
import { readFingers } from './ladder.ts';
import { actedS, type Rig, switchesReadOf, truePositionsOf } from './rig.ts';
import { type Sample, sampleCounts } from './sensors.ts';

const NOTHING_YET: Sample = { atS: 0, ...NEVER_HEARD };

/**
 * The frame of this moment; faults are determined before. Buttons pressed while the link is mute
 * are lost.
 */
export function takeFrame(rig: Rig, trips: readonly Trip[]): Frame {
  const timeS = (rig.plant.step - rig.boardLagSteps) / STEPS_PER_S;
  const read = readFingers(rig.ladder, rig.fingers, rig.active);
  const repeats = has('frames-repeated', rig.active) && rig.sequence % 2 === 1;
  if (!rig.mute && !repeats && !has('board-stall', rig.active)) {
    const switches = switchesReadOf(rig);
    rig.sample = { atS: timeS, counts: sampleSensors(rig), switches, ladder: read.ladder, trips };
  }
  const { atS, counts, switches, ladder, trips: tripped } = rig.sample ?? NOTHING_YET;
  const pressed = rig.mute ? [] : read.pressed;
  rig.fingers = [];
  rig.ladder = read.rest;
  return {
    sequence: rig.sequence++,
    timeS,
    // The host shares the simulator's true time.
    hostTimeS: timeOfS(rig.plant) + hostClockErrorS(rig.active, actedS(rig)),
    sampledAtS: atS,
    link: rig.mute ? 'mute' : 'up',
    counts,
    switches,
    pressed,
    ladder,
    trips: tripped,
    damaged: has('link-spoilt', rig.active),
    // The link tells a frame that is not the next one as a gap.
    gap: repeats || has('link-gap', rig.active) || has('frames-reordered', rig.active),
  };
}

/** The converter's present counts, lying sensors included. */
export function sampleSensors(rig: Rig): Readonly<Record<Channel, number>> {
  const { plant, tolerance, noise, active } = rig;
  const { irradianceWPerM2, heatSinkK } = plant.lamp;
  const { airK } = rig.scenario;
  const truth = {
    pressurePa: plant.air.manifoldPa,
    // Under the closed shield no daylight reaches the sensor.
    irradianceWPerM2:
      irradianceWPerM2 + (truePositionsOf(rig).shieldClosed ? 0 : rig.ambientUvWPerM2),
    glassK: rig.plant.setup.bath === null ? plant.pane.outerK : rig.probe.sensorK,
    heatSinkK,
    supplyV: plant.supplyV,
    airK,
    sensorK: airK,
    sinceZeroS: timeOfS(plant),
  };
  const counts = sampleCounts(applyToSeats(truth, active), tolerance, noise);
  return applyToCounts(counts, active, rig.sensorMemory, actedS(rig), rig.faultNoise);
}
