/**
 * The phases of one repair in trade order, one row each: what the air shall be, whether the lamp
 * burns, how long a person may take, and what leads on. Nothing moves on by itself where a person
 * must look or act. Adding a phase is a name and number in events.ts, a row here, a prompt in each
 * catalogue, and a test.
 */
import type { PhaseId } from '../events.ts';
import { addPoint, leakRatePaM3PerS, NO_POINTS } from './leak.ts';
import { NO_AIR, type Phase, type PhaseContext, type ProcedureState, type Step } from './phase.ts';
import type { Profile } from './profile.ts';
import { type AirDemand, isVented } from './regulation.ts';

/** Hand work may take this long before the unit asks whether anybody is there. */
const HAND_WORK_S = 1800;
/** A question while vacuum stands on the glass waits less. */
const UNDER_VACUUM_S = 180;
/** How long the sensors must be sound, and the air steady, before it becomes the job's zero. */
const SELF_TEST_GOOD_S = 2;
/** A set-point counts as reached this close to it: inside the regulator's own +-1.5 kPa. */
const REACHED_WITHIN_PA = 1_000;
/** The vent lets a full chamber down in under a second; longer means that the zero is not the air's. */
const VENTS_WITHIN_S = 15;

const vented = (): AirDemand => ({ air: 'vented' });
const isolated = (): AirDemand => ({ air: 'isolated' });
const toSealPull = (_: ProcedureState, { sealCheck }: Profile): AirDemand => ({
  air: 'vacuum',
  setPointPa: sealCheck.pullPa,
});
const toVacuum = (_: ProcedureState, { vacuum }: Profile): AirDemand => ({
  air: 'vacuum',
  setPointPa: vacuum.setPointPa,
});
function toPressure({ atmospherePa }: ProcedureState, { pressure }: Profile): AirDemand {
  if (atmospherePa === null) return { air: 'vented' };
  return { air: 'pressure', setPointPa: atmospherePa + pressure.setPointGaugePa };
}

const BASE = { lamp: false, answerWithinS: null, reachWithinS: () => null } as const;

function handWork(self: PhaseId, to: PhaseId, patch: Partial<ProcedureState> = {}): Phase {
  return {
    ...BASE,
    kind: 'confirm',
    air: vented,
    answerWithinS: HAND_WORK_S,
    resumeAt: self,
    next: (_, { answer }) => (answer === 'yes' ? { to, patch } : null),
  };
}

function question(
  self: PhaseId,
  yes: (state: ProcedureState, context: PhaseContext) => Step,
  no: (state: ProcedureState, context: PhaseContext) => Step,
): Phase {
  return {
    ...BASE,
    kind: 'question',
    air: vented,
    answerWithinS: HAND_WORK_S,
    resumeAt: self,
    next: (state, context) => {
      if (context.answer === null) return null;
      return context.answer === 'yes' ? yes(state, context) : no(state, context);
    },
  };
}

const isLetDown = ({ atmospherePa }: ProcedureState, { pressurePa }: PhaseContext): boolean =>
  atmospherePa !== null && pressurePa !== null && isVented(pressurePa, atmospherePa);

const belowVacuum = (setPointPa: number, { pressurePa }: PhaseContext): boolean =>
  pressurePa !== null && pressurePa <= setPointPa + REACHED_WITHIN_PA;

function nextCycle(state: ProcedureState, { profile }: PhaseContext): Step {
  return {
    to: 'evacuate',
    patch: { cycle: state.cycle + 1, dwellForS: profile.vacuum.dwellS, vacuumHeldS: 0 },
  };
}

function notClear(state: ProcedureState, context: PhaseContext): Step {
  const { planned, extra } = context.profile.cycles;
  if (state.cycle < planned) return nextCycle(state, context);
  return { to: state.cycle < planned + extra ? 'offer-cycle' : 'accept-mark' };
}

/** Counts readings of the air for as long as nothing is found wrong; begins anew after a finding. */
function observeAir(state: ProcedureState, { findings, pressurePa, dtS }: PhaseContext) {
  if (findings.length > 0 || pressurePa === null) return { ...state, air: NO_AIR };
  const { n, sumPa, goodS } = state.air;
  return { ...state, air: { n: n + 1, sumPa: sumPa + pressurePa, goodS: goodS + dtS } };
}

function observeRise(state: ProcedureState, { profile, pressurePa }: PhaseContext) {
  if (pressurePa === null || state.elapsedS < profile.sealCheck.settleS) return state;
  return { ...state, leakFit: addPoint(state.leakFit, state.elapsedS, pressurePa) };
}

const countVacuum = (state: ProcedureState, { dtS }: PhaseContext): ProcedureState => ({
  ...state,
  vacuumHeldS: state.vacuumHeldS + dtS,
});

const sealWatchS = (_: ProcedureState, { sealCheck }: Profile): number =>
  sealCheck.settleS + sealCheck.watchS;

function sealVerdict(state: ProcedureState, context: PhaseContext): Step | null {
  if (state.elapsedS < sealWatchS(state, context.profile)) return null;
  const limit = context.profile.sealCheck.leakLimitPaM3PerS;
  const rate = leakRatePaM3PerS(state.leakFit, context.volumeM3);
  if (rate === null) return { to: 'hold' };
  const measured = { leakRatePaM3PerS: rate };
  const patch = { leakRatePaM3PerS: rate };
  if (rate > limit) return { to: 'reseat', patch, measured };
  const first = nextCycle(state, context);
  return { ...first, patch: { ...first.patch, ...patch }, measured };
}

export const PHASE_TABLE: Readonly<Record<PhaseId, Phase>> = {
  'self-test': {
    ...BASE,
    kind: 'automatic',
    air: vented,
    resumeAt: 'self-test',
    observe: observeAir,
    next: ({ air }, { lampLastKnownWPerM2: lamp }) => {
      if (air.goodS < SELF_TEST_GOOD_S) return null;
      const atmospherePa = air.sumPa / air.n;
      const known = lamp === null ? {} : { lampLastKnownWPerM2: lamp };
      return { to: 'job-sheet', patch: { atmospherePa }, measured: { atmospherePa, ...known } };
    },
  },
  'job-sheet': handWork('job-sheet', 'protect'),
  protect: handWork('protect', 'inspect'),
  inspect: handWork('inspect', 'clean-pit'),
  'clean-pit': handWork('clean-pit', 'dry-pit'),
  'dry-pit': handWork('dry-pit', 'set-bridge'),
  'set-bridge': handWork('set-bridge', 'close-seal'),
  'close-seal': handWork('close-seal', 'charge-injector'),
  'charge-injector': handWork('charge-injector', 'connect-hose'),
  'connect-hose': handWork('connect-hose', 'seal-pull'),
  'seal-pull': {
    ...BASE,
    kind: 'automatic',
    air: toSealPull,
    reachWithinS: ({ sealCheck }) => sealCheck.reachWithinS,
    resumeAt: 'seal-pull',
    next: (_, context) =>
      belowVacuum(context.profile.sealCheck.pullPa, context)
        ? { to: 'seal-watch', patch: { leakFit: NO_POINTS, leakRatePaM3PerS: null } }
        : null,
  },
  'seal-watch': {
    ...BASE,
    kind: 'automatic',
    air: isolated,
    resumeAt: 'seal-pull',
    lastsS: sealWatchS,
    observe: observeRise,
    next: sealVerdict,
  },
  reseat: handWork('reseat', 'seal-pull'),
  evacuate: {
    ...BASE,
    kind: 'automatic',
    air: toVacuum,
    reachWithinS: ({ vacuum }) => vacuum.reachWithinS,
    resumeAt: 'evacuate',
    next: (_, context) =>
      belowVacuum(context.profile.vacuum.setPointPa, context) ? { to: 'vacuum-dwell' } : null,
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
      return { to: 'ask-bubbles', measured: { vacuumReachedPa: pressurePa } };
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
          : { to: 'release' },
      () => ({ to: 'release' }),
    ),
    air: toVacuum,
    answerWithinS: UNDER_VACUUM_S,
    resumeAt: 'evacuate',
    observe: countVacuum,
  },
  release: {
    ...BASE,
    kind: 'automatic',
    air: vented,
    reachWithinS: () => VENTS_WITHIN_S,
    resumeAt: 'release',
    next: (state, context) => (isLetDown(state, context) ? { to: 'pressurise' } : null),
  },
  pressurise: {
    ...BASE,
    kind: 'automatic',
    air: toPressure,
    reachWithinS: ({ pressure }) => pressure.reachWithinS,
    resumeAt: 'pressurise',
    next: ({ atmospherePa }, { profile, pressurePa }) =>
      atmospherePa !== null &&
      pressurePa !== null &&
      pressurePa - atmospherePa >= profile.pressure.setPointGaugePa - REACHED_WITHIN_PA
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
      return { to: 'vent', measured: { pressureReachedPa: pressurePa } };
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
  'ask-clear': question('ask-clear', () => ({ to: 'fill-pit' }), notClear),
  'offer-cycle': question('offer-cycle', nextCycle, () => ({ to: 'accept-mark' })),
  'accept-mark': question(
    'accept-mark',
    () => ({ to: 'fill-pit', patch: { outcome: 'mark-remains' } }),
    () => ({ to: 'stop' }),
  ),
  'fill-pit': handWork('fill-pit', 'cover-film'),
  'cover-film': handWork('cover-film', 'place-lamp'),
  'place-lamp': handWork('place-lamp', 'cure'),
  cure: {
    ...BASE,
    kind: 'automatic',
    air: vented,
    lamp: true,
    resumeAt: 'cure',
    next: (_, { cure: { done, doseJPerM2, lampOnS } }) => {
      if (!done) return null;
      const irradianceMeanWPerM2 = doseJPerM2 / lampOnS;
      return { to: 'scrape', measured: { doseJPerM2, lampOnS, irradianceMeanWPerM2 } };
    },
  },
  scrape: handWork('scrape', 'polish'),
  polish: handWork('polish', 'clean-injector'),
  'clean-injector': handWork('clean-injector', 'final-look'),
  'final-look': question(
    'final-look',
    // A mark that was accepted before the cure stays one.
    ({ outcome }) => ({ to: 'result', patch: { outcome: outcome ?? 'clear' } }),
    () => ({ to: 'result', patch: { outcome: 'mark-remains' } }),
  ),
  result: {
    ...handWork('result', 'result'),
    next: (_, { answer }) => (answer === 'yes' ? { to: 'finish' } : null),
  },
};
