/**
 * From a phase's demand on the air to pump, valves and vent: a PI regulator on absolute pressure.
 * It can only pump, never brake, so it must reach its set-point without overshoot. Proportional
 * bands are narrower for vacuum, where the pump is weak, than for pressure. Limits are left to
 * alarms and guard, which have the last word.
 */
import type { Selector } from '../core/frame.ts';

export type AirDemand =
  | { readonly air: 'vented' }
  | { readonly air: 'isolated' }
  | { readonly air: 'vacuum' | 'pressure'; readonly setPointPa: number };

/** Vented means this close to the job's zero: four steps of the converter. */
const VENTED_WITHIN_PA = 2_000;

export const isVented = (pressurePa: number, atmospherePa: number): boolean =>
  Math.abs(pressurePa - atmospherePa) <= VENTED_WITHIN_PA;

export interface RegulatorState {
  readonly selector: Selector;
  /** Contribution of the integral term to the drive, 0 to 0.5. */
  readonly integralRatio: number;
}

export const REGULATOR_AT_REST: RegulatorState = { selector: 'vacuum', integralRatio: 0 };

export interface AirCommand {
  readonly pumpRatio: number;
  readonly selector: Selector;
  readonly ventOpen: boolean;
}

/**
 * Distance from the set-point at which the drive is full, and the integral's time; tuned on the
 * simulated unit.
 */
const TUNING = {
  vacuum: { bandPa: 8_000, integralS: 4 },
  pressure: { bandPa: 25_000, integralS: 6 },
} as const;
const INTEGRAL_HIGHEST_RATIO = 0.5;
/**
 * A motor stands still at less drive, or turns, as it likes: nothing is asked of it then, so that
 * the pump's work is known.
 */
const LEAST_DRIVE_RATIO = 0.1;

/** `pressurePa` is null while it is not valid: nothing is pumped then. */
export function stepRegulation(
  state: RegulatorState,
  demand: AirDemand,
  pressurePa: number | null,
  dtS: number,
): { readonly state: RegulatorState; readonly command: AirCommand } {
  if (demand.air === 'vented' || demand.air === 'isolated') {
    const command = { pumpRatio: 0, selector: state.selector, ventOpen: demand.air === 'vented' };
    const atEase = state.integralRatio === 0 ? state : { ...state, integralRatio: 0 };
    return { state: atEase, command };
  }
  const selector = demand.air;
  if (pressurePa === null) {
    const command = { pumpRatio: 0, selector, ventOpen: true };
    return { state: { selector, integralRatio: 0 }, command };
  }
  const { bandPa, integralS } = TUNING[demand.air];
  const missingPa = (demand.setPointPa - pressurePa) * (demand.air === 'pressure' ? 1 : -1);
  const error = missingPa / bandPa;
  // The integral works only near the set-point: farther away it would wind up and overshoot.
  const near = Math.abs(error) < 0.25;
  const held = selector === state.selector ? state.integralRatio : 0;
  const integralRatio = near
    ? clamp(held + (error / integralS) * dtS, INTEGRAL_HIGHEST_RATIO)
    : held;
  return {
    state: { selector, integralRatio },
    command: { pumpRatio: driveOf(error + integralRatio), selector, ventOpen: false },
  };
}

const driveOf = (ratio: number): number => (ratio < LEAST_DRIVE_RATIO ? 0 : clamp(ratio, 1));

const clamp = (value: number, highest: number): number => Math.min(Math.max(value, 0), highest);
