/**
 * Resin that is found soft once its dose is met goes back to film and lamp for a further dose, which
 * is counted on top of the first. A cause that light cannot cure would ask for more without end, so
 * the further doses are few.
 */
import { measuredOfJob } from '../../../core/measurements.ts';
import type { CureTarget } from '../../../cure/dose.ts';
import type { PhaseContext, ProcedureState, Step } from '../../phase.ts';
import type { RepairConfig } from '../repair-state.ts';
import { workPlanOf } from '../work-plan.ts';
import { fromFirstField } from './fields.ts';
import { jobCuresOf, portionIn } from './job-target.ts';

/** Each further dose, and its least and longest time, as a share of the first; demo. */
const FURTHER_RATIO = 0.5;
const MOST_FURTHER_CURES = 2;

/** A person finds the scraped resin soft. */
export function stillSoft({ furtherCures: given }: ProcedureState, context: PhaseContext): Step {
  if (given >= MOST_FURTHER_CURES) return { to: 'stop' };
  const furtherCures = given + 1;
  const { patch, ...again } = fromFirstField(context);
  return {
    to: 'cover-film',
    ...again,
    patch: { ...patch, furtherCures },
    measured: measuredOfJob({ furtherCures }),
  };
}

/** The scraped resin was found soft, and nobody has found it hard since. */
export const isFoundSoft = ({
  phase,
  furtherCures,
}: Pick<ProcedureState, 'phase' | 'furtherCures'>): boolean =>
  phase === 'scrape' && furtherCures > 0;

/** What the present cure must reach: the job's own dose, and every further one. */
export function cureAskedIn(
  { phase, furtherCures }: Pick<ProcedureState, 'phase' | 'furtherCures'>,
  config: RepairConfig,
): CureTarget {
  const own = jobCuresOf(config)[portionIn(phase, config)];
  // Field by field, the whole dose is given once more and counted from zero.
  if (furtherCures === 0 || workPlanOf(config).fields.count > 1) return own;
  const times = 1 + FURTHER_RATIO * furtherCures;
  return {
    targetJPerM2: times * own.targetJPerM2,
    leastS: times * own.leastS,
    longestS: times * own.longestS,
  };
}
