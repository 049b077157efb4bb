/**
 * Dose as the integral of measured irradiance over the time that the lamp burns, and whether it will
 * be met in time. Only light that was measured counts: while the reading is a fault the dose stands
 * still, so an error can only lengthen a cure. When the cure ends is left to the procedure, what a
 * weak lamp leads to is left to the alarms.
 */
import type { Measured } from '../frame.ts';

export interface DoseState {
  readonly doseJPerM2: number;
  /** How long the lamp has burned with a believable reading. */
  readonly lampOnS: number;
  /** Last believable irradiance while the lamp burned; null after a break in the light. */
  readonly lastWPerM2: number | null;
}

export const NO_DOSE: DoseState = { doseJPerM2: 0, lampOnS: 0, lastWPerM2: null };

/** Trapezoidal integration over `dtS`; a pause keeps the count and starts a new piece. */
export function stepDose(
  state: DoseState,
  irradianceWPerM2: Measured,
  lampOn: boolean,
  dtS: number,
): DoseState {
  if (!lampOn || !irradianceWPerM2.ok) {
    return state.lastWPerM2 === null ? state : { ...state, lastWPerM2: null };
  }
  const now = irradianceWPerM2.value;
  if (state.lastWPerM2 === null) return { ...state, lastWPerM2: now };
  return {
    doseJPerM2: state.doseJPerM2 + ((state.lastWPerM2 + now) / 2) * dtS,
    lampOnS: state.lampOnS + dtS,
    lastWPerM2: now,
  };
}

export interface CureTarget {
  readonly targetJPerM2: number;
  readonly leastS: number;
  readonly longestS: number;
}

/** The cure is done when dose and least time are both met. */
export function cureDone(dose: DoseState, target: CureTarget): boolean {
  return dose.doseJPerM2 >= target.targetJPerM2 && dose.lampOnS >= target.leastS;
}

/** Seconds of light still needed at the present irradiance; infinite in the dark. */
export function cureLeftS(dose: DoseState, target: CureTarget): number {
  const missingJPerM2 = Math.max(0, target.targetJPerM2 - dose.doseJPerM2);
  const forDoseS = missingJPerM2 === 0 ? 0 : missingJPerM2 / (dose.lastWPerM2 ?? 0);
  return Math.max(forDoseS, target.leastS - dose.lampOnS, 0);
}
