/**
 * Resin exposed to daylight, in the injector or in an open break: it starts to set before the lamp
 * is on. It is one thin layer with the kinetics of `cure.ts`; its oxygen is not renewed, so it sets
 * no later than resin with access to air. The caller judges whether it may still be used.
 */
import { type Curing, inhibitedS } from './cure.ts';

export interface OpenResinState {
  /** UV so far, in lamp-equivalent watts. */
  doseJPerM2: number;
  oxygenRatio: number;
  conversion: number;
}

export const createOpenResinState = (): OpenResinState => ({
  doseJPerM2: 0,
  oxygenRatio: 1,
  conversion: 0,
});

/** Steps exposed resin by `dtS` of constant daylight UV, exactly. */
export function stepOpenResin(
  state: OpenResinState,
  { daylightEffect, oxygenJPerM2, rate }: Curing,
  ambientUvWPerM2: number,
  dtS: number,
): void {
  const wPerM2 = daylightEffect * ambientUvWPerM2;
  const reactsS = dtS - inhibitedS(state.oxygenRatio, wPerM2, oxygenJPerM2, 0);
  state.doseJPerM2 += wPerM2 * dtS;
  state.oxygenRatio = Math.max(0, state.oxygenRatio - (wPerM2 * dtS) / oxygenJPerM2);
  if (reactsS <= 0 || wPerM2 === 0) return;
  state.oxygenRatio = 0;
  state.conversion -= (1 - state.conversion) * Math.expm1(-rate * Math.sqrt(wPerM2) * reactsS);
}

/**
 * How much thicker partly set resin flows: 1/(1 - X/Xgel)^2, without bound at the gel point. A demo
 * form of the power laws that gelling systems follow below their gel point (common practice).
 */
export function setViscosityRatio(conversion: number, { gelConversion }: Curing): number {
  const left = 1 - conversion / gelConversion;
  return left > 0 ? 1 / (left * left) : Number.POSITIVE_INFINITY;
}
