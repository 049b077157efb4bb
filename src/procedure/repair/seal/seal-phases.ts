/**
 * The seal check and the first charge of resin. The check comes first and is dry: a short pull, the
 * valve-off test, and the consequence of its finding. A leak and a wet break need hands; adsorbed
 * gas is removed by a longer pull, which the unit does by itself. A job proceeds when the seal holds, or
 * when longer pulls have not ended the outgassing: this is recorded and is no reason to refuse.
 */
import { type MeasuredValue, measuredOfJob } from '../../../core/measurements.ts';
import type { PhaseId } from '../../../core/phases.ts';
import type { Phase, PhaseContext, ProcedureState, Step } from '../../phase.ts';
import { BASE, belowVacuum, handWork, handWorkThen } from '../../phase-kinds.ts';
import type { Profile } from '../../profile.ts';
import type { AirDemand } from '../../regulation.ts';
import { addReading, NO_RISE, riseOf } from '../../rise.ts';
import { charged } from '../cycles.ts';
import { PRESS_ROWS, sealed } from './press-phases.ts';
import { SEAL_WHY_WORDS, type SealVerdict, sealVerdictOf, VAPOUR_UNCLEAR } from './seal-finding.ts';

/** Length of one longer pull, and how many are tried before the job proceeds; demo. */
const LONG_PULL_S = 60;
const MOST_LONG_PULLS = 2;

const pullPa = ({ sealPullPa }: ProcedureState, { sealCheck }: Profile): number =>
  sealPullPa ?? sealCheck.pullPa;
const toSealPull = (state: ProcedureState, profile: Profile): AirDemand => ({
  air: 'vacuum',
  setPointPa: pullPa(state, profile),
});

/** Closes the chamber once the pull is reached. */
function closeChamber(state: ProcedureState, context: PhaseContext): Step | null {
  const { pressurePa, profile } = context;
  if (pressurePa === null || !belowVacuum(pullPa(state, profile), context)) return null;
  return {
    to: 'seal-watch',
    patch: {
      rise: NO_RISE,
      isolatedPa: pressurePa,
      leakRatePaM3PerS: null,
      leakM3PerS: 0,
      sealWhy: null,
    },
  };
}

function observeRise(state: ProcedureState, { profile, pressurePa }: PhaseContext): ProcedureState {
  if (pressurePa === null || state.elapsedS < profile.sealCheck.settleS) return state;
  return { ...state, rise: addReading(state.rise, state.elapsedS, pressurePa) };
}

const watchEndsS = (_: ProcedureState, { sealCheck }: Profile): number =>
  sealCheck.settleS + sealCheck.watchS;

function endWatch(state: ProcedureState, context: PhaseContext): Step | null {
  const { profile, volumeM3, leakLimitPaM3PerS, glassK } = context;
  const watchedS = watchEndsS(state, profile);
  if (state.elapsedS < watchedS) return null;
  const verdict = sealVerdictOf(riseOf(state.rise), {
    leakLimitPaM3PerS,
    volumeM3,
    settledS: profile.sealCheck.settleS,
    watchedS,
    isolatedPa: state.isolatedPa,
    glassK,
  });
  const { to, patch, why = SEAL_WHY_WORDS[verdict.why] } = wayOn(verdict, state, context);
  return {
    to,
    patch: {
      ...patch,
      leakRatePaM3PerS: verdict.leakRatePaM3PerS,
      leakM3PerS: leakFlowM3PerS(verdict.leakRatePaM3PerS ?? 0, state),
      sealWhy: verdict.why,
    },
    measured: measuredBy(verdict),
    events: [{ kind: 'seal-finding', finding: verdict.finding, why }],
  };
}

/**
 * A leak as the volume flow of air that gives its rate at the pressure difference of the test: in
 * proportion to the difference, it serves for the set-points of vacuum and pressure as well.
 */
const leakFlowM3PerS = (
  leakPaM3PerS: number,
  { atmospherePa, isolatedPa }: ProcedureState,
): number =>
  atmospherePa === null || atmospherePa <= isolatedPa
    ? 0
    : Math.max(0, leakPaM3PerS) / (atmospherePa - isolatedPa);

function wayOn(
  { finding, why }: SealVerdict,
  state: ProcedureState,
  context: PhaseContext,
): Pick<Step, 'to' | 'patch'> & { readonly why?: string } {
  const pullsLeft = state.longPulls < MOST_LONG_PULLS;
  const pullLonger: Step = { to: 'long-pull', patch: { longPulls: state.longPulls + 1 } };
  const byHand = (to: PhaseId): Step => ({ to, patch: { longPulls: 0 } });
  switch (finding) {
    case 'tight':
      return sealed(state, context);
    case 'leak':
      return byHand('reseat');
    case 'moisture':
      return byHand('dry-again');
    case 'outgassing':
      if (pullsLeft) return pullLonger;
      return {
        ...sealed(state, context),
        why: `${SEAL_WHY_WORDS[why]}, also after ${MOST_LONG_PULLS} longer pulls: the job goes on`,
      };
    case 'unclear':
      return why === VAPOUR_UNCLEAR && pullsLeft ? pullLonger : byHand('test-again');
  }
}

function measuredBy(verdict: SealVerdict): readonly MeasuredValue[] {
  const { leakRatePaM3PerS, leakRateUncertaintyPaM3PerS, risePlateauPa } = verdict;
  return measuredOfJob({
    ...(leakRatePaM3PerS !== null && { leakRatePaM3PerS }),
    ...(leakRateUncertaintyPaM3PerS !== null && { leakRateUncertaintyPaM3PerS }),
    ...(risePlateauPa !== null && { risePlateauPa }),
  });
}

export const SEAL_PHASES = {
  'seal-pull': {
    ...BASE,
    kind: 'automatic',
    air: toSealPull,
    reachWithinS: ({ sealCheck }) => sealCheck.reachWithinS,
    resumeAt: 'seal-pull',
    next: closeChamber,
  },
  'seal-watch': {
    ...BASE,
    kind: 'automatic',
    air: () => ({ air: 'isolated' }),
    resumeAt: 'seal-pull',
    lastsS: watchEndsS,
    observe: observeRise,
    next: endWatch,
  },
  reseat: handWork('reseat', 'seal-pull', { reseated: true }),
  'dry-again': handWork('dry-again', 'seal-pull', { reseated: true }),
  'long-pull': {
    ...BASE,
    kind: 'automatic',
    air: toSealPull,
    reachWithinS: ({ sealCheck }) => LONG_PULL_S + sealCheck.reachWithinS,
    lastsS: () => LONG_PULL_S,
    resumeAt: 'seal-pull',
    next: (state, context) => (state.elapsedS < LONG_PULL_S ? null : closeChamber(state, context)),
  },
  'test-again': handWork('test-again', 'seal-pull', { reseated: true }),
  ...PRESS_ROWS,
  'charge-injector': handWorkThen('charge-injector', charged),
} as const satisfies Partial<Record<PhaseId, Phase>>;
