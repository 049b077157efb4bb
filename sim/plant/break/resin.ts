/**
 * The properties of a resin for filling a break: viscosity over temperature, wetting of glass, and
 * solubility of air. The settings are in the units of data sheets. Its cure is defined elsewhere.
 */
import { z } from 'zod';
import { quantity } from '../../../src/core/settings.ts';
import { kFromCelsius } from '../../../src/core/units.ts';
import { fitViscosity, scaledViscosity, type ViscosityLaw, viscosityPaS } from './viscosity.ts';

export interface Resin {
  readonly viscosity: ViscosityLaw;
  /** Surface tension times the cosine of the contact angle on glass, N/m. */
  readonly adhesionNPerM: number;
  /** Air dissolved at equilibrium, mol/(m³ Pa). */
  readonly solubilityMolPerM3Pa: number;
  /** Of air in it. */
  readonly diffusionM2PerS: number;
}

const PA_S_PER_MPA_S = 1e-3;
const N_PER_M_PER_MN_PER_M = 1e-3;
/** 1 mmol/L is 1 mol/m³ and 1 bar is 1e5 Pa. */
const MOL_PER_M3_PA_PER_MMOL_PER_L_BAR = 1e-5;

/** Demo: small gases in monomers lie from 1e-4 to 5e-3 mm2/s (from memory). */
const DEMO_DIFFUSION_MM2_PER_S = 1e-3;

export const resinSchema = z
  .strictObject({
    viscosity: z
      .array(
        z.strictObject({
          temperatureC: quantity(-30, 100, 'degrees Celsius'),
          viscosityMPaS: quantity(0.3, 100_000, 'mPa s'),
        }),
      )
      .max(30, { error: 'a table of 2 to 30 points' }),
    surfaceTensionMNPerM: quantity(10, 80, 'mN/m'),
    /** A resin that does not wet glass is not drawn in; 90° and more are refused. */
    contactAngleDegrees: quantity(0, 89, 'degrees'),
    gasSolubilityMmolPerLBar: quantity(0, 50, 'mmol/(L bar)'),
    gasDiffusionMm2PerS: quantity(1e-6, 0.01, 'mm2/s').default(DEMO_DIFFUSION_MM2_PER_S),
  })
  .transform((file, context): Resin => {
    const fit = fitViscosity(
      file.viscosity.map(({ temperatureC, viscosityMPaS }) => ({
        temperatureK: kFromCelsius(temperatureC),
        viscosityPaS: viscosityMPaS * PA_S_PER_MPA_S,
      })),
    );
    if (!fit.ok) {
      context.issues.push({
        code: 'custom',
        message: fit.problem,
        input: file.viscosity,
        path: ['viscosity'],
      });
      return z.NEVER;
    }
    const angleRad = (file.contactAngleDegrees * Math.PI) / 180;
    return {
      viscosity: fit.law,
      adhesionNPerM: file.surfaceTensionMNPerM * N_PER_M_PER_MN_PER_M * Math.cos(angleRad),
      solubilityMolPerM3Pa: file.gasSolubilityMmolPerLBar * MOL_PER_M3_PA_PER_MMOL_PER_L_BAR,
      diffusionM2PerS: file.gasDiffusionMm2PerS * 1e-6,
    };
  });

/**
 * Demo resin, about 50 mPa s at 20 °C and 6 % thinner per kelvin there. Surface tension, contact
 * angle and solubility are of the order of acrylates (from memory: oxygen in air 0.6 to 1 mmol/L,
 * nitrogen about half as soluble).
 */
export const DEMO_RESIN: Resin = resinSchema.parse({
  viscosity: [
    { temperatureC: 5, viscosityMPaS: 138 },
    { temperatureC: 10, viscosityMPaS: 96 },
    { temperatureC: 20, viscosityMPaS: 50 },
    { temperatureC: 30, viscosityMPaS: 28.5 },
    { temperatureC: 40, viscosityMPaS: 17.5 },
  ],
  surfaceTensionMNPerM: 35,
  contactAngleDegrees: 20,
  gasSolubilityMmolPerLBar: 2.5,
});

/**
 * The demo resin made thicker or thinner to match a viscosity at 20 °C, as a job sheet states it.
 */
export function demoResinOf(viscosityPaSAt20C: number): Resin {
  const { viscosity } = DEMO_RESIN;
  const ratio = viscosityPaSAt20C / viscosityPaS(viscosity, kFromCelsius(20));
  return { ...DEMO_RESIN, viscosity: scaledViscosity(viscosity, ratio) };
}
