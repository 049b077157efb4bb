/**
 * For how long the light sensor has stood still to within two counts while the lamp burned. A live
 * sensor may do so in the steady light of a warm lamp, so it proves nothing by itself: the cure then
 * puts the lamp out for a moment and looks whether the reading follows.
 */

export interface LightWatch {
  /** Range of the counts since the lamp was lit or the reading last moved. */
  readonly lowest: number;
  readonly highest: number;
  /** How long the reading has kept inside it, s. */
  readonly quietS: number;
}

/** More than the noise of a frozen converter or a wire that picks up hum a little. */
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
