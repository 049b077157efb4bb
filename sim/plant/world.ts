/**
 * The simulated plant as data: the break and its resin, pane, lamp, the unit's air side, and the
 * outgassing of a wet or dirty break. Each part brings its schema; here they become one file.
 * Missing parts are the demo's, fitted to the job sheet.
 */
import { z } from 'zod';
import { quantity, schemaName } from '../../src/core/settings.ts';
import { type AirUnit, airUnitSchema, DEMO_AIR_UNIT } from './air/air-unit.ts';
import { DEMO_FOOT, type Foot, footSchema } from './air/foot.ts';
import { type GasModel, ISOTHERMAL } from './air/gas-model.ts';
import type { Break } from './break/break.ts';
import { breakSchema, type DamageSizes, demoBreakOf } from './break/breaks.ts';
import { DEMO_INJECTOR, type Injector, injectorSchema, pitM3Of } from './break/injector.ts';
import { DEMO_MOISTURE, type MoistureSettings } from './break/moisture.ts';
import { demoResinOf, type Resin, resinSchema } from './break/resin.ts';
import { type Curing, curingSchema, DEMO_CURING } from './light/cure.ts';
import { DEMO_LAMP, type Lamp, lampSchema } from './light/lamp.ts';
import { DEMO_PANE, type Pane, paneSchema } from './pane/pane.ts';

export interface World {
  readonly break: Break;
  /** Depth of the pit that is levelled. */
  readonly pitDepthM: number;
  readonly pitM3: number;
  readonly injector: Injector;
  readonly resin: Resin;
  readonly curing: Curing;
  readonly pane: Pane;
  readonly lamp: Lamp;
  readonly air: AirUnit;
  readonly gas: GasModel;
  readonly foot: Foot;
  readonly moisture: MoistureSettings;
}

/** Demo. */
const DEMO_PIT_DEPTH_M = 0.5e-3;

/** A file that describes the plant; every part may be omitted. */
export const worldSchema = z.strictObject({
  schema: schemaName('meniscus/plant@1'),
  break: breakSchema.optional(),
  resin: resinSchema.optional(),
  curing: curingSchema.optional(),
  pane: paneSchema.optional(),
  lamp: lampSchema.optional(),
  air: airUnitSchema.optional(),
  /** 1 where walls keep the gas at their temperature, 1.4 without heat exchange. */
  gas: z.strictObject({ exponent: quantity(1, 1.4, '') }).optional(),
  foot: footSchema.optional(),
  injector: injectorSchema.optional(),
});
export type WorldFile = z.infer<typeof worldSchema>;

/** The demo's world for a damage and a resin as the job sheet states them, with a file's parts in place of its own. */
export function worldOf(
  damage: DamageSizes,
  resinViscosityPaSAt20C: number,
  file: Partial<Omit<WorldFile, 'schema'>> = {},
): World {
  const pitDepthM = damage.pitDepthM ?? DEMO_PIT_DEPTH_M;
  return {
    break: file.break ?? demoBreakOf(damage),
    pitDepthM,
    pitM3: pitM3Of(damage.pitM, pitDepthM),
    injector: file.injector ?? DEMO_INJECTOR,
    resin: file.resin ?? demoResinOf(resinViscosityPaSAt20C),
    curing: file.curing ?? DEMO_CURING,
    pane: file.pane ?? DEMO_PANE,
    lamp: file.lamp ?? DEMO_LAMP,
    air: file.air ?? DEMO_AIR_UNIT,
    gas: file.gas ?? ISOTHERMAL,
    foot: file.foot ?? DEMO_FOOT,
    moisture: DEMO_MOISTURE,
  };
}
