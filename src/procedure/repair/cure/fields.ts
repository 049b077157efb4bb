/**
 * A crack that is longer than the lamp's field: each field is cured on its own, with its own dose,
 * interruptions and times, before the lamp is moved on. Light that falls beyond the field counts for
 * nothing: a field is judged by its own. `work-plan.ts` says how many fields there are.
 */
import type { PhaseId } from '../../../core/phases.ts';
import type { Phase, PhaseContext, ProcedureState, Step } from '../../phase.ts';
import { handWorkThen } from '../../phase-kinds.ts';
import type { Places, WorkPlan } from '../../places.ts';

/** The field under the lamp has its dose. */
export const fieldDone = (
  { field }: ProcedureState,
  { plan }: PhaseContext,
): Pick<Step, 'to' | 'patch'> =>
  field < plan.fields.count ? { to: 'move-lamp', patch: { field: field + 1 } } : { to: 'scrape' };

const lampMovedTo = (to: number, { count: of }: Places): NonNullable<Step['events']> => [
  { kind: 'moved', what: 'lamp', to, of },
];

/** The lamp comes to stand over a field of which nothing is counted yet. */
export const beginsField = (phase: PhaseId, { fields }: WorkPlan): boolean =>
  phase === 'move-lamp' || (phase === 'cover-film' && fields.count > 1);

/** Nobody knows which field is soft: each gets its whole dose once more, from the first on. */
export const fromFirstField = ({
  plan: { fields },
}: PhaseContext): Pick<Step, 'patch' | 'events'> =>
  fields.count > 1
    ? {
        patch: { field: 1 },
        events: lampMovedTo(1, fields),
      }
    : {};

export const FIELD_ROWS = {
  'move-lamp': handWorkThen('move-lamp', ({ field }, { plan }) => ({
    to: 'place-lamp',
    events: lampMovedTo(field, plan.fields),
  })),
} as const satisfies Partial<Record<PhaseId, Phase>>;
