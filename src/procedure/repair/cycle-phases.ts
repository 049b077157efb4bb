/**
 * The vacuum and pressure cycles: air out, resin in, a look without pressure, and what follows it.
 * `cycles.ts` decides which cycle comes next and what it needs first.
 */
import { measuredOfJob } from '../../core/measurements.ts';
import type { PhaseId } from '../../core/phases.ts';
import type { Phase, PhaseContext, ProcedureState } from '../phase.ts';
import {
  BASE,
  belowVacuum,
  handWorkThen,
  isLetDown,
  lettingDown,
  question,
  UNDER_VACUUM_S,
  VENTS_WITHIN_S,
  vented,
} from '../phase-kinds.ts';
import {
  carriedOut,
  declined,
  furtherCycle,
  nextCycle,
  notClear,
  recharge,
  recharged,
} from './cycles.ts';
import { isPressed, toPressure, toVacuum, vacuumPaOf } from './loads.ts';
import { partDone } from './positions.ts';

const countVacuum = (state: ProcedureState, { dtS }: PhaseContext): ProcedureState => ({
  ...state,
  vacuumHeldS: state.vacuumHeldS + dtS,
});

export const CYCLE_ROWS = {
  evacuate: {
    ...BASE,
    kind: 'automatic',
    air: toVacuum,
    reachWithinS: ({ vacuum }) => vacuum.reachWithinS,
    resumeAt: 'evacuate',
    next: (state, context) =>
      belowVacuum(vacuumPaOf(state, context.profile), context) ? { to: 'vacuum-dwell' } : null,
  },
  'vacuum-dwell': {
    ...BASE,
    kind: 'automatic',
    air: toVacuum,
    lastsS: ({ dwellForS }) => dwellForS,
    resumeAt: 'evacuate',
    observe: countVacuum,
    next: ({ elapsedS, dwellForS }, { pressurePa }) => {
      if (elapsedS < dwellForS || pressurePa === null) return null;
      return { to: 'ask-bubbles', measured: measuredOfJob({ vacuumReachedPa: pressurePa }) };
    },
  },
  'ask-bubbles': {
    ...question(
      'ask-bubbles',
      ({ vacuumHeldS }, { profile: { vacuum } }) =>
        vacuumHeldS < vacuum.longestDwellS
          ? {
              to: 'vacuum-dwell',
              patch: { dwellForS: Math.min(vacuum.extendByS, vacuum.longestDwellS - vacuumHeldS) },
            }
          : { to: 'bubbles-stay' },
      () => ({ to: 'release' }),
    ),
    air: toVacuum,
    answerWithinS: UNDER_VACUUM_S,
    resumeAt: 'evacuate',
    observe: countVacuum,
  },
  // The vacuum is released while the person decides: the pane has carried it for as long as it may.
  'bubbles-stay': question(
    'bubbles-stay',
    () => ({ to: 'release' }),
    () => ({ to: 'reseat' }),
  ),
  release: lettingDown('release', () => ({ to: 'pressurise' })),
  pressurise: {
    ...BASE,
    kind: 'automatic',
    air: toPressure,
    reachWithinS: ({ pressure }) => pressure.reachWithinS,
    resumeAt: 'pressurise',
    next: (state, context) => (isPressed(state, context) ? { to: 'pressure-dwell' } : null),
  },
  'pressure-dwell': {
    ...BASE,
    kind: 'automatic',
    air: toPressure,
    lastsS: (_, { pressure }) => pressure.dwellS,
    resumeAt: 'pressurise',
    next: ({ elapsedS }, { profile, pressurePa }) => {
      if (elapsedS < profile.pressure.dwellS || pressurePa === null) return null;
      return { to: 'vent', measured: measuredOfJob({ pressureReachedPa: pressurePa }) };
    },
  },
  vent: {
    ...BASE,
    kind: 'automatic',
    air: vented,
    lastsS: (_, { pressure }) => pressure.restS,
    reachWithinS: ({ pressure }) => pressure.restS + VENTS_WITHIN_S,
    resumeAt: 'vent',
    next: (state, context) =>
      state.elapsedS >= context.profile.pressure.restS && isLetDown(state, context)
        ? { to: 'ask-clear', patch: { cycleOver: true } }
        : null,
  },
  'ask-clear': question('ask-clear', partDone, notClear),
  'offer-remedy': question('offer-remedy', () => ({ to: 'try-remedy' }), declined),
  'try-remedy': handWorkThen('try-remedy', carriedOut),
  'offer-cycle': question('offer-cycle', furtherCycle, () => ({ to: 'accept-mark' })),
  // The unit cannot see into the injector: pressing with a dry one puts air into the break.
  'ask-resin': question('ask-resin', nextCycle, () => recharge('injector-dry')),
  recharge: handWorkThen('recharge', recharged),
  'accept-mark': question(
    'accept-mark',
    (state, context) => partDone(state, context, { outcome: 'mark-remains' }),
    () => ({ to: 'cycle-or-end' }),
  ),
  // Past the profile's last cycle too: a person decides, and the record counts it.
  'cycle-or-end': question('cycle-or-end', furtherCycle, () => ({ to: 'stop' })),
  // Lower vacuum and pressure are in force by now; the limit is on the display.
  'measure-leg': question(
    'measure-leg',
    () => ({ to: 'stop' }),
    ({ goesOnAt }) => ({ to: goesOnAt ?? 'evacuate', patch: { goesOnAt: null } }),
  ),
} as const satisfies Partial<Record<PhaseId, Phase>>;
