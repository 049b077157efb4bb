/**
 * Light on the resin from where the lamp stands: over the pit, or over one field of a crack after the
 * other. The fill of the first field lies under the pit and is stepped with it.
 */
import { type Curing, type CuringLight, stepCure } from './light/cure.ts';
import type { Place, PlantState } from './plant-state.ts';

/** Light as a share of that on the axis, where the lamp stands now. */
export interface RatiosNow {
  readonly fillRatio: number;
  readonly laterRatios: readonly number[];
  readonly pitRatio: number;
}

const NO_LATER: readonly number[] = [];

export function ratiosNow({ setup: { lampAt } }: PlantState, { lit }: Place): RatiosNow {
  const { row } = lit;
  if (row == null) return { ...lit, laterRatios: NO_LATER };
  const [fillRatio = 0, ...laterRatios] = row.fieldRatios.map((ratios) => ratios[lampAt] ?? 0);
  return { fillRatio, laterRatios, pitRatio: row.pitRatios[lampAt] ?? 0 };
}

/** The pit lies in the first field: nothing stands between the lamp and the fill in the others. */
export function stepLaterFields(
  { laterCures }: PlantState,
  { laterRatios }: RatiosNow,
  light: CuringLight,
  curing: Curing,
  dtS: number,
): void {
  laterCures.forEach((cure, i) => {
    const irradianceWPerM2 = light.irradianceWPerM2 * (laterRatios[i] ?? 0);
    stepCure(cure, curing, { ...light, irradianceWPerM2 }, dtS);
  });
}
