/**
 * The dry seal under pressure: suction holds the foot down in the valve-off test, pressure lifts it.
 * The chamber is opened, pressed as the cycles will press it, shut off and watched. A foot that
 * lifts is found before there is resin behind it.
 */
import type { SealFinding, SealWhy } from '../../../core/events.ts';
import { measuredOfJob } from '../../../core/measurements.ts';
import type { PhaseId } from '../../../core/phases.ts';
import { leakRatePaM3PerS } from '../../leak.ts';
import type { Phase, PhaseContext, ProcedureState, Step } from '../../phase.ts';
import { BASE, handWork, lettingDown } from '../../phase-kinds.ts';
import type { Profile } from '../../profile.ts';
import { addReading, NO_RISE, type Range, type Rise, riseOf } from '../../rise.ts';
import { afterSeal } from '../cycles.ts';
import { isPressed, toPressure } from '../loads.ts';
import { JUMP_PA, SEAL_WHY_WORDS } from './seal-finding.ts';

/**
 * How far the pressure may lag behind the pump before the foot counts as lifted. Half of what the
 * alarm takes for a sensor that lies, so that the foot is named first; demo.
 */
const LIFTED_BEHIND_PA = 3_000;

/** Water and outgassing show under vacuum alone. */
type PressFinding = Extract<SealFinding, 'tight' | 'leak' | 'unclear'>;

/** With resin behind it, the seal is pressed by the cycles themselves, and air would go into it. */
export function sealed(state: ProcedureState, context: PhaseContext): Step {
  const asked = context.profile.sealCheck.pressWatchS !== null;
  const dry = !state.resinIn && !state.resinInBreak;
  return asked && dry ? { to: 'seal-open' } : afterSeal(state, context);
}

const pressesWithinS = ({ pressure }: Profile): number => pressure.reachWithinS;

function press(state: ProcedureState, context: PhaseContext): Step | null {
  const { profile, pressurePa, pumpAheadPa } = context;
  if (pressurePa !== null && isPressed(state, context)) {
    return { to: 'press-watch', patch: { rise: NO_RISE, isolatedPa: pressurePa } };
  }
  const late = state.elapsedS >= pressesWithinS(profile);
  return late || pumpAheadPa > LIFTED_BEHIND_PA ? found('leak', 'lifts-under-pressure') : null;
}

/** Negated: a leak lets the pressure fall, and the fall is fitted as a rise. */
function observeFall(state: ProcedureState, { profile, pressurePa }: PhaseContext): ProcedureState {
  if (pressurePa === null || state.elapsedS < profile.sealCheck.settleS) return state;
  return { ...state, rise: addReading(state.rise, state.elapsedS, -pressurePa) };
}

const watchEndsS = (_: ProcedureState, { sealCheck }: Profile): number =>
  sealCheck.settleS + (sealCheck.pressWatchS ?? 0);

function endWatch(state: ProcedureState, context: PhaseContext): Step | null {
  if (state.elapsedS < watchEndsS(state, context.profile)) return null;
  const fall = riseOf(state.rise);
  if (fall === null) return found('unclear', 'too-few-readings');
  const [finding, why, slope] = nameOf(fall, state, context);
  const leak = atThePull(slope, state, context);
  const step = found(finding, why);
  return {
    ...step,
    patch: { ...step.patch, leakRatePaM3PerS: leak.best },
    measured: measuredOfJob({
      leakRatePaM3PerS: leak.best,
      leakRateUncertaintyPaM3PerS: (leak.high - leak.low) / 2,
    }),
  };
}

type Named = readonly [finding: PressFinding, why: SealWhy, fallPaPerS: Range];

function nameOf(fall: Rise, state: ProcedureState, context: PhaseContext): Named {
  const { slopePaPerS } = fall;
  const limit = context.leakLimitPaM3PerS;
  // A foot that lets go at once leaves no slope to see.
  if (state.isolatedPa + fall.startPa > JUMP_PA) {
    const jumped = (state.isolatedPa + fall.firstPa) / context.profile.sealCheck.settleS;
    return ['leak', 'jumps-when-closed', { ...slopePaPerS, best: jumped }];
  }
  const { low, high } = atThePull(slopePaPerS, state, context);
  if (low > limit) return ['leak', 'falls-in-a-line', slopePaPerS];
  if (high > limit) return ['unclear', 'close-to-the-limit', slopePaPerS];
  return ['tight', 'pressure-stays', slopePaPerS];
}

/**
 * The leak rate that the same opening has at the difference of the valve-off test, Pa m3/s: one
 * limit holds for both.
 */
function atThePull(
  fallPaPerS: Range,
  { atmospherePa, isolatedPa, sealPullPa }: ProcedureState,
  { profile: { sealCheck }, volumeM3 }: PhaseContext,
): Range {
  const airPa = atmospherePa ?? isolatedPa;
  const share = (airPa - (sealPullPa ?? sealCheck.pullPa)) / (isolatedPa - airPa);
  const rate = (paPerS: number): number => share * leakRatePaM3PerS(paPerS, volumeM3);
  const { low, best, high } = fallPaPerS;
  return { low: rate(low), best: rate(best), high: rate(high) };
}

const AFTER_FINDING: Readonly<Record<PressFinding, PhaseId>> = {
  tight: 'press-off',
  leak: 'foot-lifts',
  unclear: 'test-again',
};

const found = (finding: PressFinding, sealWhy: SealWhy): Step => ({
  to: AFTER_FINDING[finding],
  patch: { sealWhy, ...(finding !== 'tight' && { longPulls: 0 }) },
  events: [{ kind: 'seal-finding', finding, why: SEAL_WHY_WORDS[sealWhy], under: 'pressure' }],
});

export const PRESS_ROWS = {
  'seal-open': {
    ...lettingDown('seal-open', () => ({ to: 'seal-press' })),
    resumeAt: 'seal-pull',
  },
  'seal-press': {
    ...BASE,
    kind: 'automatic',
    air: toPressure,
    reachWithinS: pressesWithinS,
    resumeAt: 'seal-pull',
    next: press,
  },
  'press-watch': {
    ...BASE,
    kind: 'automatic',
    air: () => ({ air: 'isolated' }),
    resumeAt: 'seal-pull',
    lastsS: watchEndsS,
    observe: observeFall,
    next: endWatch,
  },
  'press-off': { ...lettingDown('press-off', afterSeal), resumeAt: 'seal-pull' },
  'foot-lifts': handWork('foot-lifts', 'seal-pull', { reseated: true }),
} as const satisfies Partial<Record<PhaseId, Phase>>;
