/**
 * What of the sensor's reading reaches the resin in the demo job, by hand: film of 86 %, and a spot
 * of 30 mm whose edge has 90 % of its centre, falling off with the square of the distance. The
 * break reaches 11 mm from the axis, the pit 1 mm.
 */
export const FILL_PASSES = 0.86 * (1 - 0.1 * (11 / 15) ** 2);
export const PIT_PASSES = 0.86 * (1 - 0.1 * (1 / 15) ** 2);
