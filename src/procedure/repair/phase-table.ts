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
import { BASE, handWork, handWorkThen, question, vented } from '../phase-kinds.ts';
import type { WorkPlan } from '../places.ts';
import { CURE_ROWS } from './cure/cure-phases.ts';
import { stillSoft } from './cure/further-cure.ts';
import { CYCLE_ROWS } from './cycle-phases.ts';
import { GLASS_GATE, throughGlassGate } from './glass-gate.ts';
import { POSITION_ROWS } from './positions.ts';
import { SEAL_PHASES } from './seal/seal-phases.ts';

/** How long the sensors must be sound and the air steady before it becomes the job's zero. */
const SELF_TEST_GOOD_S = 2;
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

/** Open resin must not wait for the glass. */
const entered = ({ legGrew }: ProcedureState, context: PhaseContext): Step => {
  const { entryAt } = context;
  if (legGrew && entryAt !== undefined) {
    return { to: 'measure-leg', patch: { legGrew: false, goesOnAt: entryAt } };
  }
  if (entryAt === 'set-bridge') return throughGlassGate(entryAt, context);
  return { to: entryAt ?? 'inspect' };
};

/** Before the glass is worked, and again after it was warmed to dry. */
const handWorkToGlass = (self: PhaseId, toOf: (plan: WorkPlan) => PhaseId): Phase =>
  handWorkThen(self, (_, context) => throughGlassGate(toOf(context.plan), context));

const afterAir = (toTell: boolean): PhaseId => (toTell ? 'vacuum-note' : 'job-sheet');

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
  // Another attempt of a job goes on from here: self-test, job sheet and gloves come first always.
  protect: handWorkThen('protect', entered),
  inspect: handWorkToGlass('inspect', ({ endStop }) => (endStop ? 'end-stop' : 'clean-pit')),
  'glass-gate': GLASS_GATE,
  'clean-pit': handWork('clean-pit', 'dry-pit'),
  'dry-pit': handWorkToGlass('dry-pit', () => 'set-bridge'),
  'set-bridge': handWork('set-bridge', 'close-seal'),
  'close-seal': handWork('close-seal', 'connect-hose'),
  'connect-hose': handWork('connect-hose', 'seal-pull'),
  ...POSITION_ROWS,
  ...SEAL_PHASES,
  ...CYCLE_ROWS,
  ...CURE_ROWS,
  scrape: question('scrape', () => ({ to: 'polish' }), stillSoft),
  polish: handWork('polish', 'clean-injector'),
  'clean-injector': handWork('clean-injector', 'final-look'),
  'final-look': question(
    'final-look',
    // A mark that was accepted before the cure remains a mark.
    ({ outcome }) => ({ to: 'result', patch: { outcome: outcome ?? 'clear' } }),
    () => ({ to: 'result', patch: { outcome: 'mark-remains' } }),
  ),
  result: handWorkThen('result', () => ({ to: 'finish' })),
};
