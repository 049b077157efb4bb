/**
 * The glass sensor taken off the glass and put into a bath: melting ice, or warm water that cools
 * slowly. It follows the bath's temperature with a lag. Baths are as good as careful hands make
 * them, each with a small error of its own. All figures are demo values.
 */
import type { Setup } from '../plant/setup.ts';
import type { Chance } from '../random.ts';

export interface Probe {
  sensorK: number;
  /**
   * Deviation of this ice bath from the melting point, and the present temperature of the warm one.
   */
  readonly iceK: number;
  warmK: number;
}

const ICE_K = 273.15;
const ICE_DEVIATION_K = 0.01;
const WARM_K = 313.15;
const WARM_DEVIATION_K = 1;
/** For a small thermistor in stirred water, and for a covered flask in a room. */
const SENSOR_LAG_S = 6;
const COOLING_S = 50_000;

export const createProbe = (chance: Chance): Probe => ({
  sensorK: WARM_K,
  iceK: ICE_K + ICE_DEVIATION_K * chance.gaussian(),
  warmK: WARM_K + WARM_DEVIATION_K * chance.gaussian(),
});

export const bathK = ({ iceK, warmK }: Probe, bath: 'ice' | 'warm'): number =>
  bath === 'ice' ? iceK : warmK;

/**
 * Exact for constant surroundings; on the glass the sensor has the temperature of the pane's face.
 */
export function stepProbe(probe: Probe, bath: Setup['bath'], paneK: number, dtS: number): void {
  if (bath === null) {
    probe.sensorK = paneK;
    return;
  }
  if (bath === 'warm') probe.warmK = paneK + (probe.warmK - paneK) * Math.exp(-dtS / COOLING_S);
  const towards = bathK(probe, bath);
  probe.sensorK = towards + (probe.sensorK - towards) * Math.exp(-dtS / SENSOR_LAG_S);
}
