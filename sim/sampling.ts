/**
 * What goes out as a frame: one sample of every sensor and switch, or the last one again while the
 * link is mute. Which sensors lie is told by the faults; what a frame means, by the controller.
 */
import type { Frame } from '../src/frame.ts';
import { applyToCounts, isMute } from './fault-effects.ts';
import { timeOfS } from './plant/plant.ts';
import { type Rig, switchesOf } from './rig.ts';
import { type Sample, sampleCounts } from './sensors.ts';
import { readScreen } from './technician.ts';

/** A link that has been mute since it was opened: nothing measured, switches as a broken wire. */
const NOTHING_YET: Sample = {
  atS: 0,
  counts: {
    pressure: null,
    irradiance: null,
    glassTemperature: null,
    heatSinkTemperature: null,
    supplyVoltage: null,
  },
  switches: { shieldClosed: false, overPressureTripped: true, emergencyStopPressed: true },
};

/** The frame of this moment. Buttons pressed while the link is mute are lost. */
export function takeFrame(rig: Rig): Frame {
  const timeS = timeOfS(rig.plant);
  rig.active = rig.faults.active(timeS, readScreen(rig.display)?.step ?? '');
  rig.mute = isMute(rig.active);
  if (!rig.mute) rig.sample = takeSample(rig, timeS);
  const { atS, counts, switches } = rig.sample ?? NOTHING_YET;
  const pressed = rig.mute ? [] : rig.pressed;
  rig.pressed = [];
  return {
    sequence: rig.sequence++,
    timeS,
    sampledAtS: atS,
    link: rig.mute ? 'mute' : 'up',
    counts,
    switches,
    pressed,
  };
}

function takeSample(rig: Rig, atS: number): Sample {
  const { plant, tolerance, noise, active, stuckAt } = rig;
  const { irradianceWPerM2, glassK, heatSinkK } = plant.heat;
  const truth = {
    pressurePa: plant.chamberPa,
    irradianceWPerM2,
    glassK,
    heatSinkK,
    supplyV: plant.supplyV,
  };
  const counts = applyToCounts(sampleCounts(truth, tolerance, noise), active, stuckAt);
  return { atS, counts, switches: switchesOf(rig) };
}
