/**
 * The forces at the injector's foot: the clamp holds it down, gauge pressure under it lifts it, and
 * what is left presses the ring on the glass. Where the lift is greater, the foot stands off the
 * glass by the excess over the bridge's stiffness, and air blows by under the whole ring. It knows
 * neither the flow nor the resin.
 */
import { z } from 'zod';
import { quantity } from '../../../src/core/settings.ts';
import { type GasSide, type Passage, type Restriction, setPassage } from './flow.ts';
import {
  contactConductance,
  DEMO_SEAL_RING,
  gapConductance,
  gapConductancePerM,
  gapM,
  SEAL_CRITICAL_RATIO,
  type SealRing,
  sealRingSchema,
} from './seal.ts';

/** The injector's foot on the pane. */
export interface Foot {
  readonly ring: SealRing;
  /** What the clamp presses it down with while nothing lifts it. */
  readonly clampN: number;
  /** How stiffly bridge and clamp hold a foot that lifts. */
  readonly bridgeNPerM: number;
  readonly curvatureRadiusM: number;
}

export const footSchema = z
  .strictObject({
    ring: sealRingSchema,
    clampN: quantity(1, 500, 'N'),
    bridgeNPerMm: quantity(1, 10_000, 'N/mm'),
    curvatureRadiusM: quantity(0.3, 100, 'm'),
  })
  .transform(({ bridgeNPerMm, ...foot }): Foot => ({ ...foot, bridgeNPerM: 1000 * bridgeNPerMm }));

/**
 * Invented: half as much again as lifts it where the relief valve opens, and a windscreen at its
 * sharpest curve.
 */
export const DEMO_FOOT: Foot = {
  ring: DEMO_SEAL_RING,
  clampN: 100,
  bridgeNPerM: 50_000,
  curvatureRadiusM: 3,
};

/** Gauge pressure acts inside the middle of the ring's contact. */
export const footAreaM2 = ({ ring }: Pick<Foot, 'ring'>): number => Math.PI * ring.radiusM ** 2;

/** What presses the ring on the glass; below zero, what is missing to hold the foot down. */
export const seatingN = (foot: Foot, gaugePa: number): number =>
  foot.clampN - footAreaM2(foot) * gaugePa;

/** How far the foot stands off the glass. */
export const liftM = (foot: Foot, gaugePa: number): number =>
  Math.max(0, -seatingN(foot, gaugePa)) / foot.bridgeNPerM;

/** Gauge pressure at which it begins to lift. */
export const liftsAtPa = (foot: Foot): number => foot.clampN / footAreaM2(foot);

/**
 * The ring pressed on the glass, at one pressure, with grit or a scratch (m3/(s Pa)) that no force
 * closes.
 */
export const pressedRestriction = (
  foot: Foot,
  gaugePa: number,
  gritConductance: number,
): Restriction => ({
  sonicConductance:
    contactConductance(foot.ring, Math.max(0, seatingN(foot, gaugePa))) + gritConductance,
  criticalRatio: SEAL_CRITICAL_RATIO,
});

/** Heights of the slit under the half of the ring where the pane curves away, and under the other. */
export interface Slit {
  readonly curvedM: number;
  readonly straightM: number;
}

const SHUT: Slit = { curvedM: 0, straightM: 0 };

/** While the ring is pressed on, its compliance takes up the curve; a foot that stands off has all of it. */
export function slitUnder(foot: Foot, gaugePa: number): Slit {
  const { ring, curvatureRadiusM } = foot;
  const curvedM =
    gapM(ring, Math.max(0, seatingN(foot, gaugePa)), curvatureRadiusM) + liftM(foot, gaugePa);
  return curvedM === 0 ? SHUT : { curvedM, straightM: liftM(foot, gaugePa) };
}

/** m3/(s Pa). */
export const slitConductance = ({ ring }: Foot, { curvedM, straightM }: Slit): number =>
  gapConductance(ring, curvedM) + gapConductance(ring, straightM);

/** How the conductance grows with the gauge pressure, m3/(s Pa2): the ring lets go, then the bridge. */
function slitPerPa(foot: Foot, { curvedM, straightM }: Slit): number {
  const { ring, bridgeNPerM } = foot;
  const perM = gapConductancePerM(ring, curvedM);
  const perN =
    straightM === 0
      ? perM / ring.stiffnessNPerM
      : (perM + gapConductancePerM(ring, straightM)) / bridgeNPerM;
  return perN * footAreaM2(foot);
}

/**
 * Whether the ring takes up a curve twice as deep as the pane's. It does in nearly every step of a
 * repair, and this costs less than to find a slit that is shut.
 */
const pressedWell = (foot: Foot, gaugePa: number): boolean =>
  seatingN(foot, gaugePa) * foot.curvatureRadiusM >
  foot.ring.stiffnessNPerM * foot.ring.radiusM ** 2;

/**
 * Adds what blows by to the seal's passage. The slit opens with the pressure, so that the flow
 * changes more steeply than by the difference alone, as at a relief valve.
 */
export function addBlowBy(seal: Passage, foot: Foot, air: GasSide, injector: GasSide): void {
  const gaugePa = injector.pressurePa - air.pressurePa;
  if (pressedWell(foot, gaugePa)) return;
  const slit = slitUnder(foot, gaugePa);
  if (slit === SHUT) return;
  const { molPerS, slopeMolPerSPa } = seal;
  const sonicConductance = slitConductance(foot, slit);
  setPassage(seal, { sonicConductance, criticalRatio: SEAL_CRITICAL_RATIO }, air, injector);
  // Out of the chamber alone does the slit open with its own flow.
  const steeper = (Math.max(0, -seal.molPerS) * slitPerPa(foot, slit)) / sonicConductance;
  seal.molPerS += molPerS;
  seal.slopeMolPerSPa += slopeMolPerSPa + steeper;
}
