/**
 * Builds a frame: one sample of every sensor and switch, or the last one again while the link is
 * mute. The faults decide which sensors lie; the controller interprets the frame.
 */
import { type Channel, type Frame, NEVER_HEARD, type Trip } from '../../src/core/frame.ts';
import { applyToCounts, has } from '../faults/fault-effects.ts';
import { STEPS_PER_S, timeOfS } from '../plant/plant.ts';
import { type Rig, switchesOf } from './rig.ts';
import { type Sample, sampleCounts } from './sensors.ts';

const NOTHING_YET: Sample = { atS: 0, ...NEVER_HEARD };

/**
 * The frame of this moment; faults are determined before. Buttons pressed while the link is mute
 * are lost.
 */
export function takeFrame(rig: Rig, trips: readonly Trip[]): Frame {
  const timeS = (rig.plant.step - rig.boardLagSteps) / STEPS_PER_S;
  if (!rig.mute && !has('board-stall', rig.active)) {
    rig.sample = { atS: timeS, counts: sampleSensors(rig), switches: switchesOf(rig), trips };
  }
  const { atS, counts, switches, trips: tripped } = rig.sample ?? NOTHING_YET;
  const pressed = rig.mute ? [] : rig.pressed;
  rig.pressed = [];
  return {
    sequence: rig.sequence++,
    timeS,
    // The host shares the simulator's true time.
    hostTimeS: timeOfS(rig.plant),
    sampledAtS: atS,
    link: rig.mute ? 'mute' : 'up',
    counts,
    switches,
    pressed,
    trips: tripped,
    damaged: has('link-spoilt', rig.active),
    gap: has('link-gap', rig.active),
  };
}

/** The converter's present counts, lying sensors included. */
export function sampleSensors(rig: Rig): Readonly<Record<Channel, number>> {
  const { plant, tolerance, noise, active, stuckAt } = rig;
  const { irradianceWPerM2, heatSinkK } = plant.lamp;
  const truth = {
    pressurePa: plant.air.manifoldPa,
    // Under the closed shield no daylight reaches the sensor.
    irradianceWPerM2: irradianceWPerM2 + (plant.setup.shieldClosed ? 0 : rig.ambientUvWPerM2),
    glassK: rig.plant.setup.bath === null ? plant.pane.outerK : rig.probe.sensorK,
    heatSinkK,
    supplyV: plant.supplyV,
    sensorK: rig.scenario.airK,
    sinceZeroS: timeOfS(plant),
  };
  return applyToCounts(sampleCounts(truth, tolerance, noise), active, stuckAt);
}
