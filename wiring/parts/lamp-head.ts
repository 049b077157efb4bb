/**
 * The lamp head as it stands on the glass: one wavelength for lamp, light sensor and reference, and
 * where each part sits. Demo figures in mm; those of the light are the unit file's, and a test holds
 * the two together. The sheet of the light is drawn from them.
 */
export const LAMP_HEAD = {
  /** Usual for such resins (from memory). */
  peakNm: 365,
  lampToGlass: 20,
  lampToGlassWithin: 0.2,
  spotDiameter: 30,
  /** At the edge of the spot, of its centre. */
  spotEdgePercent: 90,
  spotEdgeWithinPercent: 2,
  sensorFromAxis: 18,
  sensorOverGlass: 4,
  sensorWidth: 3,
  /** All of the spot, and never the sensor, which must not look through it. */
  filmWidth: 32,
  film: 0.05,
  thermistorFromAxis: 20,
  shieldInside: 52,
  shieldWall: 2,
  heatSink: { width: 50, height: 18, fins: 7 },
  lens: { diameter: 8, height: 4 },
  outerPly: 2.1,
  interlayer: 0.76,
  innerPly: 1.6,
} as const;
