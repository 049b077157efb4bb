/**
 * How a break is worked along its length: in how many positions of the injector and fields of the
 * lamp, how far each is moved on, and whether the end of a crack is stopped first. One of each, and
 * the lamp over the pit, for every break but a crack whose profile says how it is worked. Positions
 * and fields are spread evenly, so that none overlaps the next by less than the profile says.
 */
import { memoized } from '../../core/memoized.ts';
import type { SettingsProblem } from '../../core/settings.ts';
import { lengthOf } from '../../intake/sheet/crack-length.ts';
import { ONE, ONE_PLACE, placesAlong, type WorkPlan } from '../places.ts';
import type { RepairConfig } from './repair-state.ts';

type Worked = Pick<RepairConfig, 'profile' | 'job' | 'unit'>;

/** The display has one digit for each. */
const MOST_PLACES = 9;
/** The lamp also covers the half of the pit that lies before the crack. */
export const litLengthM = ({ damage }: Worked['job']): number => lengthOf(damage) + damage.pitM / 2;

export const workPlanOf = memoized<Worked, WorkPlan>(({ profile: { along }, job, unit }) => {
  if (along === null || job.damage.type !== 'crack') return ONE_PLACE;
  const field = unit.lightPath?.field ?? null;
  const { reachM, positionsOverlapM, fieldsOverlapM, endStop } = along;
  const positions = placesAlong(lengthOf(job.damage), reachM, positionsOverlapM);
  const stopped = endStop === 'where-known' && job.damage.crackEnd === 'outer-ply';
  const filled = { positions, endStop: stopped };
  if (field === null) return { ...filled, fields: ONE, fieldRadiusM: null, coversM: null };
  const fields = placesAlong(litLengthM(job), field.lengthM, fieldsOverlapM);
  const litToM = (fields.count - 1) * fields.apartM + field.lengthM - job.damage.pitM / 2;
  return {
    ...filled,
    fields,
    fieldRadiusM: Math.hypot(field.lengthM, field.widthM) / 2,
    coversM: Math.min((positions.count - 1) * positions.apartM + reachM, litToM),
  };
});

/** Why this break cannot be worked along its length; empty where it can, or need not. */
export function planProblems(
  config: Worked,
  files: { readonly unit: string; readonly job: string; readonly profile: string },
): readonly SettingsProblem[] {
  const { along } = config.profile;
  const { damage } = config.job;
  const field = config.unit.lightPath?.field ?? null;
  if (along === null || damage.type !== 'crack' || field === null) return [];
  const mm = (m: number): string => `${(m * 1000).toFixed(1)} mm`;
  const problem = (file: string, path: string, value: string, accepted: string) => [
    { file, path, value, accepted },
  ];
  if (2 * along.fieldsOverlapM > field.lengthM) {
    const most = `at most half of the lamp's field of ${mm(field.lengthM)}`;
    return problem(files.profile, 'along.fieldsOverlapMm', mm(along.fieldsOverlapM), most);
  }
  if (damage.pitM > field.widthM) {
    const most = `at most ${mm(field.widthM)}, the width of the lamp's field`;
    return problem(files.job, 'damage.pitMm', mm(damage.pitM), most);
  }
  const { positions, fields } = workPlanOf(config);
  if (positions.count <= MOST_PLACES && fields.count <= MOST_PLACES) return [];
  const worked = `a crack worked in at most ${MOST_PLACES} positions and fields: this takes ${positions.count} and ${fields.count}`;
  return problem(files.job, 'damage.longestLegMm', mm(lengthOf(damage)), worked);
}

/** Lengths of what is filled at each position: up to the next one, and to the end from the last. */
export function partsOf(config: Worked): readonly number[] {
  const { positions } = workPlanOf(config);
  const lengthM = lengthOf(config.job.damage);
  return Array.from({ length: positions.count }, (_, i) =>
    i === positions.count - 1 ? lengthM - i * positions.apartM : positions.apartM,
  );
}
