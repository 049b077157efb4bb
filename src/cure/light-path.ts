/**
 * The way of the light from the sensor's reading to the resin, as the unit file states it: how far
 * the lamp is from the glass, how even its spot is, where the sensor sits, and how far each may be
 * off. The calibration makes the sensor read the light at the centre of the spot on the glass
 * (`care/calibration.ts`). From there the light falls off towards the edge of the spot and loses a
 * share in the cover film. The profile states the film; the drawing of the light's way in `wiring/`
 * shows these distances; `light-chain.ts` refuses what does not fit.
 */
import { z } from 'zod';
import { quantity, text } from '../core/settings.ts';

const lightPathFileSchema = z.strictObject({
  /** Source of the figures. */
  source: text(200),
  lampToGlassMm: quantity(5, 200, 'mm'),
  /** How far the glass may be nearer or farther than at the calibration: curvature, a worn rim. */
  lampToGlassWithinMm: quantity(0, 5, 'mm'),
  /** Of the round spot whose edge is stated. */
  spotDiameterMm: quantity(5, 200, 'mm'),
  /** Light at the edge of the spot, as a share of its centre. */
  spotEdgePercent: quantity(20, 100, '% of the centre'),
  spotEdgeWithinPercent: quantity(0, 20, '% of the centre'),
  /**
   * The part of the spot that counts as one field where a break is cured field by field: a rectangle
   * about the centre, its length along the break. Null where the unit cures one spot a job.
   */
  fieldMm: z
    .strictObject({ length: quantity(5, 200, 'mm'), width: quantity(2, 200, 'mm') })
    .nullable()
    .default(null),
  /** From the axis of the lamp; outside the spot, so that the sensor shades no resin. */
  sensorFromCentreMm: quantity(2, 200, 'mm'),
  /**
   * Slope of the sensor's responsivity where the lamp shines; a sensor's own curve states it. Size
   * from memory. That readings of one 365 nm diode by meters of unlike responsivity "can be very
   * different" is Eppeldauer's finding, J. Res. NIST 117.004 (2012), whose abstract gives no figure
   * (seen on NIST's page of it).
   */
  sensorSlopePercentPerNm: quantity(0.05, 5, '% of reading per nm'),
  /**
   * How far a film of the roll may differ from the share that the profile states. From memory, as
   * the profile's 86 %: published figures of clear polyester and polypropylene films were found for
   * visible light only.
   */
  filmWithinPercent: quantity(0, 20, '% of what it transmits'),
});

export const lightPathSchema = lightPathFileSchema
  .check(({ value, issues }) => {
    const refuse = (path: string, message: string): void => {
      issues.push({ code: 'custom', input: value, path: [path], message });
    };
    if (value.lampToGlassWithinMm > value.lampToGlassMm / 5) {
      refuse('lampToGlassWithinMm', `at most a fifth of lampToGlassMm (${value.lampToGlassMm})`);
    }
    const { fieldMm, spotDiameterMm } = value;
    if (fieldMm !== null && Math.hypot(fieldMm.length, fieldMm.width) > spotDiameterMm) {
      refuse('fieldMm', `a rectangle inside the even spot of ${spotDiameterMm} mm across`);
    }
    if (value.sensorFromCentreMm <= value.spotDiameterMm / 2) {
      refuse('sensorFromCentreMm', `more than half of spotDiameterMm (${value.spotDiameterMm})`);
    }
  })
  .transform((file) => ({
    lampToGlassM: file.lampToGlassMm / 1000,
    lampToGlassWithinM: file.lampToGlassWithinMm / 1000,
    spotRadiusM: file.spotDiameterMm / 2000,
    spotEdgeRatio: file.spotEdgePercent / 100,
    spotEdgeWithinRatio: file.spotEdgeWithinPercent / 100,
    field:
      file.fieldMm === null
        ? null
        : { lengthM: file.fieldMm.length / 1000, widthM: file.fieldMm.width / 1000 },
    sensorSlopePerNm: file.sensorSlopePercentPerNm / 100,
    filmWithinRatio: file.filmWithinPercent / 100,
  }));
export type LightPath = z.infer<typeof lightPathSchema>;

/**
 * Light at this distance from the axis, as a share of the centre's: a parabola from the centre to
 * the stated edge, the first term of any smooth round spot. Beyond the edge nothing is known, and
 * the edge's share is given.
 */
export function spotRatioAt({ spotRadiusM, spotEdgeRatio }: LightPath, radiusM: number): number {
  const share = Math.min(1, radiusM / spotRadiusM);
  return 1 - (1 - spotEdgeRatio) * share * share;
}

/**
 * Light on the resin that is farthest from the axis, as a share of what the sensor reads. Without a
 * stated path, as in older journals, the film alone counts.
 */
export const resinPerSensorRatio = (
  path: LightPath | null,
  filmRatio: number,
  radiusM: number,
): number => (path === null ? filmRatio : filmRatio * spotRatioAt(path, radiusM));

/**
 * Relative half-widths of what the sensor cannot see, for the budget of a dose at the resin. The
 * lamp is small against its distance, so that its light goes with the inverse square: a glass
 * that is nearer or farther by w changes it by (d / (d - w))^2 - 1 at most, while the sensor, fixed
 * beside the lamp, sees nothing of it.
 */
export function spreadsOf(path: LightPath) {
  const { lampToGlassM, lampToGlassWithinM, spotEdgeRatio, spotEdgeWithinRatio } = path;
  return {
    filmRatio: path.filmWithinRatio,
    spotRatio: spotEdgeWithinRatio / spotEdgeRatio,
    distanceRatio: (lampToGlassM / (lampToGlassM - lampToGlassWithinM)) ** 2 - 1,
  };
}
