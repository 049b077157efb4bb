/**
 * The composition of a laminated pane: layers from the outside inwards, radiation of its faces,
 * expansion, and strength of its glass. Only data; heat is in laminate.ts, stress in stress.ts. The
 * shares of sun and lamp that a layer absorbs are demo values.
 */
import { z } from 'zod';
import { quantity } from '../../../src/core/settings.ts';

export interface Layer {
  /** An interlayer is soft: it carries heat and no stress. */
  readonly kind: 'glass' | 'interlayer';
  readonly thicknessM: number;
  readonly conductivityWPerMK: number;
  readonly densityKgPerM3: number;
  readonly heatCapacityJPerKgK: number;
  /** Share of the sun on the outer face that this layer absorbs as heat, 0 to 1. */
  readonly sunRatio: number;
  /** The same for the curing lamp. */
  readonly lampRatio: number;
}

export interface Pane {
  /** From the outer face inwards. */
  readonly layers: readonly Layer[];
  /** Corrected emissivity of both faces, 0 to 1. */
  readonly emissivity: number;
  readonly youngPa: number;
  readonly poissonRatio: number;
  readonly expansionPerK: number;
  /** Stress intensity at which glass breaks at once, Pa sqrt(m). */
  readonly toughnessPaSqrtM: number;
  /** Stress intensity from which a crack creeps in moist air, Pa sqrt(m). */
  readonly slowGrowthPaSqrtM: number;
}

const ratio = () => quantity(0, 1, '');

const layerSchema = z.strictObject({
  kind: z.enum(['glass', 'interlayer'], { error: 'one of glass, interlayer' }),
  thicknessMm: quantity(0.1, 25, 'mm'),
  conductivityWPerMK: quantity(0.05, 5, 'W/(m K)'),
  densityKgPerM3: quantity(500, 4000, 'kg/m3'),
  heatCapacityJPerKgK: quantity(300, 4000, 'J/(kg K)'),
  sunRatio: ratio(),
  lampRatio: ratio(),
});

const absorbed = (layers: readonly { sunRatio: number; lampRatio: number }[]): boolean =>
  layers.reduce((sum, { sunRatio }) => sum + sunRatio, 0) <= 1 &&
  layers.reduce((sum, { lampRatio }) => sum + lampRatio, 0) <= 1;

/** A pane in the units of data sheets. */
export const paneSchema = z
  .strictObject({
    layers: z
      .array(layerSchema)
      .min(1, { error: '1 to 5 layers' })
      .max(5, { error: '1 to 5 layers' })
      .refine(absorbed, {
        error: 'layers that take up no more sun and no more lamp than falls in',
      }),
    emissivity: ratio(),
    youngGPa: quantity(40, 120, 'GPa'),
    poissonRatio: quantity(0, 0.45, ''),
    expansionPerMillionPerK: quantity(0.1, 20, '1e-6/K'),
    toughnessMPaSqrtM: quantity(0.2, 3, 'MPa sqrt(m)'),
    slowGrowthMPaSqrtM: quantity(0.05, 3, 'MPa sqrt(m)'),
  })
  .refine((pane) => pane.slowGrowthMPaSqrtM <= pane.toughnessMPaSqrtM, {
    path: ['slowGrowthMPaSqrtM'],
    error: 'no more than toughnessMPaSqrtM',
  })
  .transform(
    (pane): Pane => ({
      layers: pane.layers.map(({ thicknessMm, ...rest }) => ({
        ...rest,
        thicknessM: thicknessMm / 1000,
      })),
      emissivity: pane.emissivity,
      youngPa: pane.youngGPa * 1e9,
      poissonRatio: pane.poissonRatio,
      expansionPerK: pane.expansionPerMillionPerK * 1e-6,
      toughnessPaSqrtM: pane.toughnessMPaSqrtM * 1e6,
      slowGrowthPaSqrtM: pane.slowGrowthMPaSqrtM * 1e6,
    }),
  );

/** Soda-lime float glass: EN 572-1 as quoted by secondary pages. */
export const FLOAT_GLASS = {
  kind: 'glass',
  conductivityWPerMK: 1,
  densityKgPerM3: 2500,
  heatCapacityJPerKgK: 720,
} as const;

/** Polyvinyl butyral; from memory. */
export const PVB = {
  kind: 'interlayer',
  conductivityWPerMK: 0.2,
  densityKgPerM3: 1070,
  heatCapacityJPerKgK: 1900,
} as const;

/**
 * A windscreen of common thicknesses (common practice, no source). Stiffness and expansion: EN
 * 572-1 as quoted by secondary pages; emissivity: EN 673, from memory; toughness and the beginning
 * of slow growth: from memory. The interlayer absorbs most of the lamp's light; its share is a demo
 * value.
 */
export const DEMO_PANE: Pane = {
  layers: [
    { ...FLOAT_GLASS, thicknessM: 2.1e-3, sunRatio: 0.1, lampRatio: 0.08 },
    { ...PVB, thicknessM: 0.76e-3, sunRatio: 0.04, lampRatio: 0.6 },
    { ...FLOAT_GLASS, thicknessM: 1.6e-3, sunRatio: 0.07, lampRatio: 0.02 },
  ],
  emissivity: 0.837,
  youngPa: 70e9,
  poissonRatio: 0.2,
  expansionPerK: 9e-6,
  toughnessPaSqrtM: 0.75e6,
  slowGrowthPaSqrtM: 0.25e6,
};

export const paneThicknessM = ({ layers }: Pick<Pane, 'layers'>): number =>
  layers.reduce((sum, { thicknessM }) => sum + thicknessM, 0);

/** Heat capacity of a square metre, J/(m2 K). */
export const paneCapacityJPerM2K = ({ layers }: Pick<Pane, 'layers'>): number =>
  layers.reduce(
    (sum, { thicknessM, densityKgPerM3, heatCapacityJPerKgK }) =>
      sum + thicknessM * densityKgPerM3 * heatCapacityJPerKgK,
    0,
  );

/** From face to face, m2 K/W. */
export const paneResistanceM2KPerW = ({ layers }: Pick<Pane, 'layers'>): number =>
  layers.reduce(
    (sum, { thicknessM, conductivityWPerMK }) => sum + thicknessM / conductivityWPerMK,
    0,
  );

/**
 * Heat conducted along the pane per metre of width and kelvin per metre, with the layers side by
 * side, W/K.
 */
export const paneSheetWPerK = ({ layers }: Pick<Pane, 'layers'>): number =>
  layers.reduce(
    (sum, { thicknessM, conductivityWPerMK }) => sum + thicknessM * conductivityWPerMK,
    0,
  );
