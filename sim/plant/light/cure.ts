/**
 * Resin under light, at a few depths: the light that reaches each, the dissolved oxygen that must
 * be used up first, and the share of reactive groups that have then reacted. Beside it stands the
 * working curve, the trade's rule for the cured depth of a dose. The two views of one resin agree
 * at the demo lamp's irradiance; away from it they differ, because conversion goes with the square
 * root of the light. Rates and gel point are demo values; `lamp.ts` decides how much light there
 * is.
 *
 * Kinetics: Rp = kp [M] (phi Ia / kt)^(1/2), radicals terminating in pairs (Odian, Principles of
 * Polymerization, photochemical initiation; from memory). Working curve: Jacobs, Rapid Prototyping
 * and Manufacturing (1992), as quoted by Kolibaba et al., Additive Manufacturing 84 (2024) 104082.
 */
import { z } from 'zod';
import { quantity } from '../../../src/core/settings.ts';
import { jPerM2FromMJPerCm2, wPerM2FromMWPerCm2 } from '../../../src/core/units.ts';
import { DEMO_DAYLIGHT_BAND, DEMO_LAMP_BAND, DEMO_RESIN_ACTION, weightedMean } from './spectrum.ts';

/**
 * Depths that are modelled: the face, the pit's skin, the middle and the far side of the outer ply.
 */
export const CURE_DEPTHS_M = [0, 0.25e-3, 1e-3, 2e-3] as const;
const RATED_WPERM2 = wPerM2FromMWPerCm2(10);

export const curingSchema = z
  .strictObject({
    /** Exposure that only just gels the face. */
    criticalMJPerCm2: quantity(0.1, 1000, 'mJ/cm2'),
    /** Depth at which 1/e of the light is left. */
    penetrationMm: quantity(0.02, 20, 'mm'),
    /** Exposure that uses up the oxygen of resin that has stood in air. */
    oxygenMJPerCm2: quantity(0.01, 200, 'mJ/cm2'),
    /** Share of its oxygen that an open face regains from the air per second. */
    oxygenRefillPerS: quantity(0, 100, '1/s'),
    /** k sqrt(I) at 10 mW/cm2. */
    ratePerSAt10MWPerCm2: quantity(1e-5, 10, '1/s'),
    gelConversion: quantity(0.01, 0.9, ''),
    /** Conversion from which a face is no longer tacky. */
    tackFreeConversion: quantity(0.02, 0.99, ''),
    /** Effect of a watt of daylight UV relative to a watt of the lamp's. */
    daylightEffect: quantity(0, 10, ''),
  })
  .transform((file) => {
    const penetrationM = file.penetrationMm / 1000;
    return {
      criticalJPerM2: jPerM2FromMJPerCm2(file.criticalMJPerCm2),
      penetrationM,
      oxygenJPerM2: jPerM2FromMJPerCm2(file.oxygenMJPerCm2),
      oxygenRefillPerS: file.oxygenRefillPerS,
      /** k in dX/dt = k sqrt(I) (1 - X), m/(s sqrt W). */
      rate: file.ratePerSAt10MWPerCm2 / Math.sqrt(RATED_WPERM2),
      gelConversion: file.gelConversion,
      tackFreeConversion: file.tackFreeConversion,
      daylightEffect: file.daylightEffect,
      /** Share of the light that reaches each depth: exp(-z/Dp), Bouguer, Lambert and Beer. */
      reaching: CURE_DEPTHS_M.map((depthM) => reachingRatio({ penetrationM }, depthM)),
    };
  });
/** Share of the light at the face that reaches a depth. */
export function reachingRatio(
  { penetrationM }: { readonly penetrationM: number },
  depthM: number,
): number {
  return Math.exp(-depthM / penetrationM);
}

export type Curing = z.infer<typeof curingSchema>;

/** Demo resin: the face gels at 100 mJ/cm2 by working curve and kinetics alike at 20 mW/cm2. */
export const DEMO_CURING: Curing = curingSchema.parse({
  criticalMJPerCm2: 100,
  penetrationMm: 1,
  oxygenMJPerCm2: 10,
  oxygenRefillPerS: 4,
  ratePerSAt10MWPerCm2: 0.01656,
  gelConversion: 0.1,
  tackFreeConversion: 0.5,
  daylightEffect:
    weightedMean(DEMO_DAYLIGHT_BAND, DEMO_RESIN_ACTION) /
    weightedMean(DEMO_LAMP_BAND, DEMO_RESIN_ACTION),
});

export interface CureState {
  /** Exposure of the face so far, in lamp-equivalent watts. */
  exposureJPerM2: number;
  /** Dissolved oxygen at each depth, relative to resin that has stood in air. */
  readonly oxygenRatio: number[];
  /** Share of the reactive groups that have reacted, at each depth. */
  readonly conversion: number[];
}

export interface CuringLight {
  /** Light of the lamp that reaches the resin (under the film); the mean over the step. */
  readonly irradianceWPerM2: number;
  /** Daylight UV that reaches the resin. */
  readonly ambientUvWPerM2: number;
  /** Under film or glass: no oxygen returns to the face. */
  readonly covered: boolean;
}

export const createCureState = (): CureState => ({
  exposureJPerM2: 0,
  oxygenRatio: CURE_DEPTHS_M.map(() => 1),
  conversion: CURE_DEPTHS_M.map(() => 0),
});

/** Cured depth for an exposure of the face: Cd = Dp ln(E/Ec), none below Ec. */
export function workingCurveM(
  exposureJPerM2: number,
  { penetrationM, criticalJPerM2 }: Pick<Curing, 'penetrationM' | 'criticalJPerM2'>,
): number {
  return exposureJPerM2 > criticalJPerM2
    ? penetrationM * Math.log(exposureJPerM2 / criticalJPerM2)
    : 0;
}

/** Seconds until the oxygen is used up under constant light; infinite while the air replaces it. */
export function inhibitedS(
  oxygenRatio: number,
  wPerM2: number,
  oxygenJPerM2: number,
  refillPerS: number,
): number {
  const usedPerS = wPerM2 / oxygenJPerM2;
  if (usedPerS <= refillPerS) return oxygenRatio > 0 ? Number.POSITIVE_INFINITY : 0;
  if (refillPerS === 0) return oxygenRatio / usedPerS;
  // dO/dt = r (1 - O) - u, from O to zero.
  return Math.log1p((oxygenRatio * refillPerS) / (usedPerS - refillPerS)) / refillPerS;
}

/** Oxygen left after `dtS` of constant light. */
function oxygenAfter(
  oxygenRatio: number,
  wPerM2: number,
  oxygenJPerM2: number,
  refillPerS: number,
  dtS: number,
): number {
  const usedPerS = wPerM2 / oxygenJPerM2;
  if (refillPerS === 0) return Math.max(0, oxygenRatio - usedPerS * dtS);
  const restRatio = 1 - usedPerS / refillPerS;
  const left = restRatio + (oxygenRatio - restRatio) * Math.exp(-refillPerS * dtS);
  return Math.max(0, left);
}

/**
 * Steps the resin by `dtS` of constant light, exactly. While any oxygen is left at a depth nothing
 * reacts there: a sharp end of inhibition where real resin has a gradual one.
 */
export function stepCure(state: CureState, curing: Curing, light: CuringLight, dtS: number): void {
  const { oxygenRatio, conversion } = state;
  const { reaching, oxygenJPerM2 } = curing;
  const wPerM2 = light.irradianceWPerM2 + curing.daylightEffect * light.ambientUvWPerM2;
  state.exposureJPerM2 += wPerM2 * dtS;
  for (let i = 0; i < reaching.length; i++) {
    const localWPerM2 = wPerM2 * (reaching[i] as number);
    const oxygen = oxygenRatio[i] as number;
    const refillPerS = i === 0 && !light.covered ? curing.oxygenRefillPerS : 0;
    const reactsS = dtS - inhibitedS(oxygen, localWPerM2, oxygenJPerM2, refillPerS);
    if (reactsS > 0 && localWPerM2 > 0) {
      const reacted = -Math.expm1(-curing.rate * Math.sqrt(localWPerM2) * reactsS);
      conversion[i] = (conversion[i] as number) + (1 - (conversion[i] as number)) * reacted;
      oxygenRatio[i] = 0;
    } else oxygenRatio[i] = oxygenAfter(oxygen, localWPerM2, oxygenJPerM2, refillPerS, dtS);
  }
}

export const curedDepthM = ({ exposureJPerM2 }: CureState, curing: Curing): number =>
  workingCurveM(exposureJPerM2, curing);

/** The face still sticks to a finger. */
export const surfaceTacky = ({ conversion }: CureState, { tackFreeConversion }: Curing): boolean =>
  (conversion[0] ?? 0) < tackFreeConversion;

/** Everything below the face has set. */
export const gelled = ({ conversion }: CureState, { gelConversion }: Curing): boolean =>
  conversion.every((share, i) => i === 0 || share >= gelConversion);
