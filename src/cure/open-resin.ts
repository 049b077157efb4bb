/**
 * Daylight on exposed resin: from charging the injector until the lamp cure begins, the
 * radiometer's reading with the lamp off is integrated as dose. The sensor covers only its own
 * spot: it misses a sunbeam on the injector beside it and light below its detection limit, so the
 * count is a lower bound. The amount that may have gone undetected is kept beside it. The alarms
 * decide what a dose leads to.
 */
import type { Measured } from '../core/frame.ts';

export interface OpenResin {
  /** Counted so far, J/m2; it only grows. */
  readonly doseJPerM2: number;
  /** Light that may have gone undetected, J/m2: time in the dark times the detection limit. */
  readonly unseenJPerM2: number;
  /** Time without a valid reading, s. */
  readonly blindS: number;
  /** The last complete window detected light. */
  readonly lit: boolean;
  readonly windowS: number;
  readonly windowJPerM2: number;
}

export const RESIN_CLOSED: OpenResin = {
  doseJPerM2: 0,
  unseenJPerM2: 0,
  blindS: 0,
  lit: false,
  windowS: 0,
  windowJPerM2: 0,
};

/**
 * Light is distinguished from dark by the mean of a window. One reading of the demo channel carries
 * 0.25 W/m2 of noise and 0.14 of quantisation. The mean of 20 readings leaves 0.06 W/m2, far below
 * the offset that `leastSeenWPerM2` stands for, so noise never accumulates into a dose.
 */
const WINDOW_S = 1;
/** A window counts as complete when rounding over 20 ticks leaves it this little short, s. */
const SLACK_S = 1e-6;

/** Advances the count while resin is exposed and the lamp is off; otherwise leaves it unchanged. */
export function stepOpenResin(
  state: OpenResin,
  irradianceWPerM2: Measured,
  { open, lampOn }: { readonly open: boolean; readonly lampOn: boolean },
  leastSeenWPerM2: number,
  dtS: number,
): OpenResin {
  if (!open) return state.lit ? { ...state, lit: false } : state;
  if (lampOn) return state;
  if (!irradianceWPerM2.ok) return { ...state, blindS: state.blindS + dtS };
  const windowS = state.windowS + dtS;
  const windowJPerM2 = state.windowJPerM2 + irradianceWPerM2.value * dtS;
  if (windowS < WINDOW_S - SLACK_S) {
    const { doseJPerM2, unseenJPerM2, blindS, lit } = state;
    return { doseJPerM2, unseenJPerM2, blindS, lit, windowS, windowJPerM2 };
  }
  const lit = windowJPerM2 > leastSeenWPerM2 * windowS;
  return {
    doseJPerM2: state.doseJPerM2 + (lit ? windowJPerM2 : 0),
    unseenJPerM2: state.unseenJPerM2 + (lit ? 0 : leastSeenWPerM2 * windowS),
    blindS: state.blindS,
    lit,
    windowS: 0,
    windowJPerM2: 0,
  };
}
