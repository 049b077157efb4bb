/**
 * Glass, lamp heat sink and light: two lumped heat balances and a lamp whose output droops with its
 * heat-sink temperature and its age. All constants are demo values. Whether the lamp may burn is
 * decided by the board.
 */

export interface HeatAndLight {
  glassK: number;
  heatSinkK: number;
  /** Drive that reaches the diodes, 0 to 1. */
  lampRatio: number;
  irradianceWPerM2: number;
  /** True dose so far, J/m2. */
  doseJPerM2: number;
}

export const LAMP = {
  fullWPerM2: 200,
  fullElectricW: 12,
  turnOnS: 0.05,
  droopPerK: 0.003,
  ratedHeatSinkK: 298.15,
} as const;

const GLASS = { capacityJPerK: 30, lossWPerK: 0.15, absorbedWAtFull: 0.4 } as const;
const HEAT_SINK = { capacityJPerK: 60, lossWPerK: 0.4 } as const;

export interface Surroundings {
  readonly airK: number;
  /** Share of its first output that an aged lamp still gives. */
  readonly lampAgeRatio: number;
  /** Heat from sun or air gun into the glass, W. */
  readonly glassHeatW: number;
  /** Heat into the heat sink that its fan does not take away, W. */
  readonly heatSinkHeatW: number;
}

export function stepHeatAndLight(
  state: HeatAndLight,
  driveRatio: number,
  { airK, lampAgeRatio, glassHeatW, heatSinkHeatW }: Surroundings,
  dtS: number,
): void {
  state.lampRatio += ((driveRatio - state.lampRatio) * dtS) / (LAMP.turnOnS + dtS);
  if (driveRatio === 0 && state.lampRatio < 1e-4) state.lampRatio = 0;
  const droop = 1 - LAMP.droopPerK * (state.heatSinkK - LAMP.ratedHeatSinkK);
  state.irradianceWPerM2 = LAMP.fullWPerM2 * state.lampRatio * lampAgeRatio * Math.max(0, droop);
  state.doseJPerM2 += state.irradianceWPerM2 * dtS;
  const glassW =
    GLASS.absorbedWAtFull * state.lampRatio + glassHeatW - GLASS.lossWPerK * (state.glassK - airK);
  state.glassK += (glassW * dtS) / GLASS.capacityJPerK;
  const sinkW =
    LAMP.fullElectricW * state.lampRatio +
    heatSinkHeatW -
    HEAT_SINK.lossWPerK * (state.heatSinkK - airK);
  state.heatSinkK += (sinkW * dtS) / HEAT_SINK.capacityJPerK;
}
