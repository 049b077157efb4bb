/**
 * What acts on the plant besides the board's outputs: hands, and the faults of the surroundings.
 */

/** What hands have done. */
export interface Setup {
  sealed: boolean;
  hoseOn: boolean;
  charged: boolean;
  /** Taken off the filled break for good. */
  injectorOff: boolean;
  /** The pit is levelled with resin of its own. */
  pitFilled: boolean;
  filmOn: boolean;
  shieldClosed: boolean;
  /** The bath of the glass sensor while it is not on the glass. */
  bath: 'ice' | 'warm' | null;
}

/** What faults change in the surroundings, each tick. */
export interface Conditions {
  readonly airK: number;
  /** Share of its initial output that an aged lamp still gives. */
  readonly lampAgeRatio: number;
  /** Heat put straight into the worked spot, W. */
  readonly glassHeatW: number;
  /** Warm air blown onto the spot; null while there is none. */
  readonly airGunK: number | null;
  /** Sun on the whole pane. */
  readonly sunWPerM2: number;
  /** Heat into the heat sink that its fan does not remove, W. */
  readonly heatSinkHeatW: number;
  readonly sealLeak: boolean;
  readonly hoseOff: boolean;
  /** Water in the break; contamination on its faces that outgasses. */
  readonly wetBreak: boolean;
  readonly outgassing: boolean;
  readonly supplyV: number | null;
  readonly pumpFlowRatio: number;
  /** Daylight at the break that acts on the resin, W/m2. */
  readonly ambientUvWPerM2: number;
}
