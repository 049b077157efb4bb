/**
 * The unit's air side as data: volumes, pump, valves and hose, in the units of data sheets, and the
 * same in SI for the plant. Half of the hose's volume counts for the node at either end.
 */
import { z } from 'zod';
import { quantity } from '../../../src/core/settings.ts';
import { type Restriction, restrictionSchema } from './flow.ts';
import { type Pump, pumpSchema } from './pump.ts';
import { type ReliefValve, reliefSchema } from './relief.ts';

export interface AirUnit {
  readonly manifoldM3: number;
  readonly injectorM3: number;
  /** Wall area of injector and half the hose, where the gas exchanges heat. */
  readonly injectorWallM2: number;
  readonly pump: Pump;
  readonly vent: Restriction;
  readonly relief: ReliefValve;
  readonly hose: Restriction;
  /** Opening of either end to the air while the hose is off. */
  readonly openEnd: Restriction;
}

const M3_PER_ML = 1e-6;

export const airUnitSchema = z
  .strictObject({
    manifoldMl: quantity(2, 200, 'mL'),
    hoseMl: quantity(0.5, 200, 'mL'),
    injectorMl: quantity(2, 200, 'mL'),
    injectorWallCm2: quantity(1, 1000, 'cm2').default(30),
    pump: pumpSchema,
    vent: restrictionSchema,
    relief: reliefSchema,
    hose: restrictionSchema,
    openEnd: restrictionSchema,
  })
  .transform(
    ({ manifoldMl, hoseMl, injectorMl, injectorWallCm2, ...parts }): AirUnit => ({
      manifoldM3: (manifoldMl + hoseMl / 2) * M3_PER_ML,
      injectorM3: (injectorMl + hoseMl / 2) * M3_PER_ML,
      injectorWallM2: injectorWallCm2 * 1e-4,
      ...parts,
    }),
  );

/** What may be wrong with its valves and hose. */
export interface AirUnitWear {
  readonly ventFlowRatio: number;
  readonly hoseFlowRatio: number;
  readonly reliefCracksPa: number | null;
}

const narrowed = (sound: Restriction, ratio: number): Restriction =>
  ratio === 1 ? sound : { ...sound, sonicConductance: sound.sonicConductance * ratio };

/** The unit with that wear; a sound one is returned as it is. */
export function wornUnit(unit: AirUnit, wear: AirUnitWear): AirUnit {
  const { ventFlowRatio, hoseFlowRatio, reliefCracksPa } = wear;
  if (ventFlowRatio === 1 && hoseFlowRatio === 1 && reliefCracksPa === null) return unit;
  const { relief } = unit;
  const cracksPa = reliefCracksPa ?? relief.cracksPa;
  return {
    ...unit,
    vent: narrowed(unit.vent, ventFlowRatio),
    hose: narrowed(unit.hose, hoseFlowRatio),
    relief: { ...relief, cracksPa, fullPa: cracksPa + relief.fullPa - relief.cracksPa },
  };
}

/** Invented values, of the size of a bench unit. */
export const DEMO_AIR_UNIT: AirUnit = airUnitSchema.parse({
  manifoldMl: 12,
  hoseMl: 8,
  injectorMl: 10,
  pump: {
    freeFlowLPerMin: 1.5,
    greatestRatio: 12.5,
    deadHeadKPa: 230,
    stallRatio: 0.08,
    startLagS: 0.08,
    ratedV: 12,
  },
  vent: { conductanceDm3PerSBar: 0.2, criticalRatio: 0.3 },
  relief: {
    cracksKPa: 200,
    fullKPa: 220,
    open: { conductanceDm3PerSBar: 0.2, criticalRatio: 0.3 },
  },
  hose: { conductanceDm3PerSBar: 0.7, criticalRatio: 0.2 },
  openEnd: { conductanceDm3PerSBar: 1, criticalRatio: 0.3 },
});
