/**
 * The phases of one repair in trade order, one row each: the demand on the air, whether the lamp is
 * on, how long a person may take, and what leads on. Nothing proceeds by itself where a person must
 * look or act. A new phase needs a row in `core/phases.ts`, a row here, a prompt in each catalogue,
 * and a test.
 */

import { measuredOfJob } from '../../core/measurements.ts';
import type { PhaseId } from '../../core/phases.ts';
import { movedAway, vacuumPlanOf } from '../altitude.ts';
import { NO_AIR, type Phase, type PhaseContext, type ProcedureState, type Step } from '../phase.ts';
import {
  BASE,
  belowVacuum,
  handWork,
  question,
  REACHED_WITHIN_PA,
  UNDER_VACUUM_S,
  vented,
} from '../phase-kinds.ts';
import type { Profile } from '../profile.ts';
import { type AirDemand, isVented } from '../regulation.ts';
import { CURE_ROWS, firstCureStep } from './cure-phases.ts';
import { nextCycle, notClear } from './cycles.ts';
import { pressureGaugePaOf, vacuumPaOf } from './loads.ts';
import { SEAL_PHASES } from './seal-phases.ts';

/** How long the sensors must be sound and the air steady before it becomes the job's zero. */
const SELF_TEST_GOOD_S = 2;
/**
 * The vent empties a full chamber in under a second; longer means that the zero is not the air's.
 */
const VENTS_WITHIN_S = 15;
const EMPTIES_IN_S = 1;

const toVacuum = (state: ProcedureState, profile: Profile): AirDemand => ({
  air: 'vacuum',
  setPointPa: vacuumPaOf(state, profile),
});
function toPressure(state: ProcedureState, profile: Profile): AirDemand {
  const { atmospherePa } = state;
  if (atmospherePa === null) return { air: 'vented' };
  return { air: 'pressure', setPointPa: atmospherePa + pressureGaugePaOf(state, profile) };
}

const isLetDown = ({ atmospherePa }: ProcedureState, { pressurePa }: PhaseContext): boolean =>
  atmospherePa !== null && pressurePa !== null && isVented(pressurePa, atmospherePa);

/**
 * Counts readings of the air for as long as nothing is found wrong; a finding restarts the count.
 */
function observeAir(state: ProcedureState, { findings, pressurePa, dtS }: PhaseContext) {
  if (findings.length > 0 || pressurePa === null) return { ...state, air: NO_AIR };
  const { n, sumPa, goodS } = state.air;
  return { ...state, air: { n: n + 1, sumPa: sumPa + pressurePa, goodS: goodS + dtS } };
}

function endSelfTest(
  { air }: ProcedureState,
  { profile, greatestRatio, lampLastKnownWPerM2, airLastJobPa }: PhaseContext,
): Step | null {
  if (air.goodS < SELF_TEST_GOOD_S) return null;
  const atmospherePa = air.sumPa / air.n;
  const plan = vacuumPlanOf(atmospherePa, profile, greatestRatio);
  const known = {
    ...(lampLastKnownWPerM2 !== null && { lampLastKnownWPerM2 }),
    ...(airLastJobPa !== null && { airLastJobPa }),
  };
  return {
    to: movedAway(atmospherePa, airLastJobPa) ? 'air-jump' : afterAir(plan.toTell),
    patch: { atmospherePa, vacuumPa: plan.vacuumPa, sealPullPa: plan.sealPullPa },
    measured: measuredOfJob({ atmospherePa, airLeftRatio: plan.airLeftRatio, ...known }),
    events: plan.adapted,
  };
}

const afterAir = (toTell: boolean): PhaseId => (toTell ? 'vacuum-note' : 'job-sheet');

const countVacuum = (state: ProcedureState, { dtS }: PhaseContext): ProcedureState => ({
  ...state,
  vacuumHeldS: state.vacuumHeldS + dtS,
});

export const PHASE_TABLE: Readonly<Record<PhaseId, Phase>> = {
  'self-test': {
    ...BASE,
    kind: 'automatic',
    air: vented,
    resumeAt: 'self-test',
    observe: observeAir,
    next: endSelfTest,
  },
  // A zero that has shifted reads like another altitude: only a person knows which it is.
  'air-jump': question(
    'air-jump',
    ({ atmospherePa }, { profile, greatestRatio }) => ({
      to: afterAir(
        atmospherePa !== null && vacuumPlanOf(atmospherePa, profile, greatestRatio).toTell,
      ),
    }),
    () => ({ to: 'stop' }),
  ),
  'vacuum-note': handWork('vacuum-note', 'job-sheet'),
  'job-sheet': handWork('job-sheet', 'protect'),
  protect: {
    ...handWork('protect', 'inspect'),
    // Another attempt of a job goes on from here: self-test, job sheet and gloves come first always.
    next: (_, { answer, entryAt }) => (answer === 'yes' ? { to: entryAt ?? 'inspect' } : null),
  },
  inspect: handWork('inspect', 'clean-pit'),
  'clean-pit': handWork('clean-pit', 'dry-pit'),
  'dry-pit': handWork('dry-pit', 'set-bridge'),
  'set-bridge': handWork('set-bridge', 'close-seal'),
  'close-seal': handWork('close-seal', 'charge-injector'),
  'charge-injector': handWork('charge-injector', 'connect-hose'),
  'connect-hose': handWork('connect-hose', 'seal-pull'),
  ...SEAL_PHASES,
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
  release: {
    ...BASE,
    kind: 'automatic',
    air: vented,
    reachWithinS: () => VENTS_WITHIN_S,
    resumeAt: 'release',
    // Time shows that the chamber is empty, too: a reading alone may lie.
    next: (state, context) =>
      state.elapsedS >= EMPTIES_IN_S && isLetDown(state, context) ? { to: 'pressurise' } : null,
  },
  pressurise: {
    ...BASE,
    kind: 'automatic',
    air: toPressure,
    reachWithinS: ({ pressure }) => pressure.reachWithinS,
    resumeAt: 'pressurise',
    next: (state, { profile, pressurePa }) =>
      state.atmospherePa !== null &&
      pressurePa !== null &&
      pressurePa - state.atmospherePa >= pressureGaugePaOf(state, profile) - REACHED_WITHIN_PA
        ? { to: 'pressure-dwell' }
        : null,
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
        ? { to: 'ask-clear' }
        : null,
  },
  'ask-clear': question(
    'ask-clear',
    (_, { profile }) => ({ to: firstCureStep(profile) }),
    notClear,
  ),
  'offer-cycle': question('offer-cycle', nextCycle, () => ({ to: 'accept-mark' })),
  'accept-mark': question(
    'accept-mark',
    (_, { profile }) => ({ to: firstCureStep(profile), patch: { outcome: 'mark-remains' } }),
    () => ({ to: 'stop' }),
  ),
  ...CURE_ROWS,
  scrape: handWork('scrape', 'polish'),
  polish: handWork('polish', 'clean-injector'),
  'clean-injector': handWork('clean-injector', 'final-look'),
  'final-look': question(
    'final-look',
    // A mark that was accepted before the cure remains a mark.
    ({ outcome }) => ({ to: 'result', patch: { outcome: outcome ?? 'clear' } }),
    () => ({ to: 'result', patch: { outcome: 'mark-remains' } }),
  ),
  result: {
    ...handWork('result', 'result'),
    next: (_, { answer }) => (answer === 'yes' ? { to: 'finish' } : null),
  },
};
