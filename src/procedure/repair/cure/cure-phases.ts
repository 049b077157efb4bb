/**
 * The phases from a break judged clear to cured resin. Together: pit resin goes on the liquid fill
 * and one exposure counts for both. Apart: the fill is cured first, under film, so that nothing
 * runs out of the legs or is drawn up while the pit is made, and so that the pit resin also fills
 * the volume that the fill lost as it set (common practice, no source). Film is used rather than a
 * glass plug, which could be bonded in place. The cure room decides how much light is enough.
 */

import {
  type MeasuredValue,
  measuredOfCure,
  measuredOfJob,
  type Portion,
} from '../../../core/measurements.ts';
import { CURE_PHASES, type PhaseId } from '../../../core/phases.ts';
import type { Phase, PhaseContext, ProcedureState, Step } from '../../phase.ts';
import { BASE, handWork, handWorkThen, vented } from '../../phase-kinds.ts';
import type { Profile } from '../../profile.ts';
import { FIELD_ROWS, fieldDone } from './fields.ts';

/** Where the injector is off. */
export const firstCureStep = ({ curing }: Profile): PhaseId =>
  curing === 'apart' ? 'cover-fill' : 'fill-pit';

type Given = PhaseContext['cure'];

/** What a cure came to; `portion` is null where one exposure is for both. */
const cureOf = (portion: Portion | null, cure: Given): readonly MeasuredValue[] => [
  ...measuredOfCure(portion, {
    doseJPerM2: cure.doseJPerM2,
    doseUncertaintyJPerM2: cure.doseUncertaintyJPerM2,
    shownDoseJPerM2: cure.shownDoseJPerM2,
  }),
  ...measuredOfJob({ doseCoverageFactor: cure.doseCoverageFactor }),
  ...measuredOfCure(portion, {
    lampOnS: cure.lampOnS,
    irradianceMeanWPerM2: cure.doseJPerM2 / cure.lampOnS,
    gapsPassed: cure.gapsPassed,
    gapsFailed: cure.gapsFailed,
    unconfirmedDoseJPerM2: cure.unconfirmedDoseJPerM2,
  }),
];

function lampPhase(
  self: PhaseId,
  to: (state: ProcedureState, context: PhaseContext) => Pick<Step, 'to' | 'patch'>,
  portionOf: (profile: Profile) => Portion | null,
): Phase {
  return {
    ...BASE,
    kind: 'automatic',
    air: vented,
    lamp: ({ darkLookS }) => darkLookS === null,
    resumeAt: self,
    observe: lookAtDark,
    next: (state, context) => {
      const { cure, light, profile } = context;
      const { darkLookS } = state;
      return cure.done && darkLookS !== null && isSeenDark(darkLookS, light)
        ? { ...to(state, context), measured: cureOf(portionOf(profile), cure) }
        : null;
    },
  };
}

/** A cure begins with a check of the dark: the sensor's zero before any light. */
export const darkLookAtStart = (phase: PhaseId): number | null =>
  CURE_PHASES.has(phase) ? 0 : null;

/**
 * A reading is the median of three samples, which are new in this time; `cure/light-proof.ts`
 * waits as long.
 */
const DARK_SETTLES_S = 0.3;

/** Dark, and the light before it has been judged by that. */
const isSeenDark = (darkLookS: number, { dark, judged }: PhaseContext['light']): boolean =>
  dark && judged && darkLookS >= DARK_SETTLES_S;

/**
 * The lamp is off before the cure, after it, and in the gaps between: only a sensor that falls to
 * dark with the lamp has shown that its light was the lamp's. The lamp stays off until it does; the
 * alarms handle a sensor that does not. Once the shown dose is enough, the lamp does not come back.
 */
function lookAtDark(state: ProcedureState, { cure, light, dtS }: PhaseContext): ProcedureState {
  const { darkLookS } = state;
  if (darkLookS === null) return cure.gapDue ? { ...state, darkLookS: 0 } : state;
  const seen = isSeenDark(darkLookS, light) && !cure.done;
  return { ...state, darkLookS: seen ? null : darkLookS + dtS };
}

export const CURE_ROWS = {
  'injector-off': handWorkThen('injector-off', (_, { profile }) => ({
    to: firstCureStep(profile),
  })),
  'cover-fill': handWork('cover-fill', 'place-lamp-fill'),
  'place-lamp-fill': handWork('place-lamp-fill', 'cure-fill'),
  'cure-fill': lampPhase(
    'cure-fill',
    () => ({ to: 'uncover-fill' }),
    () => 'fill',
  ),
  'uncover-fill': handWork('uncover-fill', 'fill-pit'),
  'fill-pit': handWork('fill-pit', 'cover-film'),
  'cover-film': handWork('cover-film', 'place-lamp'),
  'place-lamp': handWork('place-lamp', 'cure'),
  cure: lampPhase('cure', fieldDone, ({ curing }) => (curing === 'apart' ? 'pit' : null)),
  ...FIELD_ROWS,
} as const satisfies Partial<Record<PhaseId, Phase>>;
