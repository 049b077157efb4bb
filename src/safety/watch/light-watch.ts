/**
 * How long the light sensor's reading has stayed within two counts while the lamp was on. A live
 * sensor may do so in the steady light of a warm lamp, so this alone proves nothing: the cure then
 * switches the lamp off for a moment and checks whether the reading follows.
 */

export interface LightWatch {
  /** Range of the counts since the lamp was switched on or the reading last moved. */
  readonly lowest: number;
  readonly highest: number;
  /** How long the reading has stayed inside it, s. */
  readonly quietS: number;
}

/** More than the noise of a frozen converter or of a wire that picks up some hum. */
const STILL_COUNTS = 2;

export const LIGHT_WATCH_START: LightWatch = {
  lowest: Number.POSITIVE_INFINITY,
  highest: Number.NEGATIVE_INFINITY,
  quietS: 0,
};

export function stepLightWatch(
  watch: LightWatch,
  counts: number | null,
  lampOn: boolean,
  dtS: number,
): LightWatch {
  if (!lampOn || counts === null) return LIGHT_WATCH_START;
  const lowest = Math.min(watch.lowest, counts);
  const highest = Math.max(watch.highest, counts);
  if (highest - lowest > STILL_COUNTS) return { lowest: counts, highest: counts, quietS: 0 };
  return { lowest, highest, quietS: watch.quietS + dtS };
}
