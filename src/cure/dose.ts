/**
 * Dose as the integral of measured irradiance while the lamp is on, and whether the target will be
 * met in time. Only measured light counts: while the reading is faulty the dose stands still, so an
 * error can only lengthen a cure. The target counts as met once it is shown to be, with the dose's
 * own uncertainty. `light-proof.ts` decides which part of the count is shown, the procedure when the
 * cure ends, the alarms what a weak lamp leads to.
 */
import type { Measured } from '../core/frame.ts';
import {
  type DoseUncertaintyTerms,
  type GivenLight,
  leftUntilShownS,
  shownJPerM2,
} from './dose-uncertainty.ts';

export interface DoseState extends GivenLight {
  /** Time for which the lamp was on with a valid reading. */
  readonly lampOnS: number;
  /** Last valid irradiance while the lamp was on; null after a break in the light. */
  readonly lastWPerM2: number | null;
}

export const NO_DOSE: DoseState = { doseJPerM2: 0, lampOnS: 0, pieces: 0, lastWPerM2: null };

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
  const { doseJPerM2, lampOnS, pieces, lastWPerM2 } = state;
  if (lastWPerM2 === null) return { doseJPerM2, lampOnS, pieces: pieces + 1, lastWPerM2: now };
  return {
    doseJPerM2: doseJPerM2 + ((lastWPerM2 + now) / 2) * dtS,
    lampOnS: lampOnS + dtS,
    pieces,
    lastWPerM2: now,
  };
}

export interface CureTarget {
  readonly targetJPerM2: number;
  readonly leastS: number;
  readonly longestS: number;
}

/** The cure is done when the dose is shown to be met and the minimum time has passed. */
export function cureDone(
  dose: GivenLight,
  target: CureTarget,
  terms: DoseUncertaintyTerms,
): boolean {
  return dose.lampOnS >= target.leastS && shownJPerM2(dose, terms) >= target.targetJPerM2;
}

/** Seconds of light still needed at this irradiance; infinite in the dark. */
export function cureLeftS(
  dose: GivenLight,
  irradianceWPerM2: number,
  target: CureTarget,
  terms: DoseUncertaintyTerms,
): number {
  const forDoseS = leftUntilShownS(dose, irradianceWPerM2, target.targetJPerM2, terms);
  return Math.max(forDoseS, target.leastS - dose.lampOnS, 0);
}

/** Seconds that a whole cure takes at a steady irradiance, before the lamp is switched on. */
export function forecastS(
  irradianceWPerM2: number,
  target: CureTarget,
  terms: DoseUncertaintyTerms,
): number {
  return leftUntilShownS(NO_DOSE, irradianceWPerM2, target.targetJPerM2, terms);
}
