/**
 * A job on hand-made units, one attempt after the other, with the model beside it: every tick is
 * held against the rules on outputs and against the model. Plain data, so that a job that was led
 * somewhere once can be tried in many ways.
 */
import { type Button, isSafe, type Request } from '../../../../src/core/frame.ts';
import type { PhaseId } from '../../../../src/core/phases.ts';
import {
  cureOnlyEntry,
  type Entry,
  goOnEntry,
  type WayOn,
} from '../../../../src/procedure/repair/reentry.ts';
import { REPAIR } from '../../../../src/procedure/repair/repair.ts';
import type { Repair, RepairConfig } from '../../../../src/procedure/repair/repair-state.ts';
import { checkOutputs } from '../../../output-rules.ts';
import { type Scene, tick, type Unit, unitAtRest } from '../../../steered-unit.ts';
import { mayAnswer, repairIn } from '../../../steering.ts';
import { AT_REST, attemptAfter, follow, type Model, nextModel } from './repair-model.ts';

export interface Job {
  readonly unit: Unit<Repair>;
  readonly model: Model;
  readonly attempt: number;
  /** What the next test of the seal sees. */
  readonly seal: SealShape;
  /** As cold as outdoors when it is looked at. */
  readonly cold: boolean;
}

interface SealTest {
  /** Where the seal shows what it is. */
  readonly in: PhaseId;
  /** Pressure there in air of `airPa`, Pa, by the time since the phase began, s. */
  readonly pa: (s: number, airPa: number) => number;
}
const shutOff = (rise: (s: number) => number): SealTest => ({
  in: 'seal-watch',
  pa: (s) => 60_000 + rise(s),
});

/** As in `steering.ts`. */
const SEALS = {
  tight: shutOff(() => 0),
  leak: shutOff((s) => 500 * s),
  moisture: shutOff((s) => 2_600 * (1 - Math.exp(-s / 9))),
  outgassing: shutOff((s) => 1_400 * (1 - Math.exp(-s / 9))),
  unclear: shutOff((s) => 167 * s),
  lifts: { in: 'seal-press', pa: (s, airPa) => airPa + Math.min(90_000, 60_000 * s) },
} as const satisfies Readonly<Record<string, SealTest>>;
export type SealShape = keyof typeof SEALS;
export const SEAL_SHAPES = Object.keys(SEALS) as readonly SealShape[];

/** The waits cut short, for what their length does not prove. */
export function briefly(config: RepairConfig): RepairConfig {
  const { profile } = config;
  return {
    ...config,
    profile: {
      ...profile,
      vacuum: { ...profile.vacuum, dwellS: 6, extendByS: 6, longestDwellS: 12 },
      pressure: { ...profile.pressure, dwellS: 6, restS: 1 },
      cycles: { ...profile.cycles, planned: 1, extra: 2 },
    },
  };
}

/** Where the unit stands, and the air there in its last job. */
export interface Site {
  readonly airPa?: number;
  readonly airLastJobPa?: number | null;
  readonly cold?: boolean;
}

export function newJob(
  given: RepairConfig,
  { airPa, airLastJobPa = null, cold = false }: Site = {},
): Job {
  const config = briefly(given);
  const unit = unitAtRest(REPAIR, { ...config, unit: { ...config.unit, airLastJobPa } }, airPa);
  return { unit, model: AT_REST, attempt: 1, seal: 'tight', cold };
}

/** A job that was steered into this phase by presses, in its first tick there. */
export function jobIn(phase: PhaseId): Job {
  const steered = repairIn(phase);
  const unit = { ...steered, config: briefly(steered.config), log: [] };
  const { resinInBreak, goesOnAt: legGrewAt } = unit.state.procedure;
  const model: Model = { ...AT_REST, batch: 'running', step: phase, resinInBreak, legGrewAt };
  return { unit, model, attempt: 1, seal: 'tight', cold: false };
}

/** One tick, checked. */
export function stepJob(job: Job, given: Scene = {}, requests: readonly Request[] = []): Job {
  const { phase, elapsedS } = job.unit.state.procedure;
  const shows = SEALS[job.seal];
  const tests = phase === shows.in && job.seal !== 'tight';
  const pressurePa = shows.pa(elapsedS, job.unit.airPa);
  const pane = job.cold && phase === 'inspect' ? { glassK: 276.15 } : {};
  const scene = tests ? { pressurePa, ...given } : { ...pane, ...given };
  const unit = tick(job.unit, scene, requests);
  const pressed = scene.pressed ?? [];
  const interrupted = requests.some(({ kind }) => kind === 'stop');
  const model = follow(job.model, unit.step?.events ?? [], { pressed, interrupted });
  const seal = phase === shows.in && unit.state.procedure.phase !== phase ? 'tight' : job.seal;
  checkSafety(unit, scene);
  checkAgreement(unit, model);
  return { ...job, unit, model, seal };
}

function checkSafety({ step, state, boardS }: Unit<Repair>, scene: Scene): void {
  if (step === null) throw new Error('no tick');
  const switches = {
    shieldClosed: true,
    overPressureTripped: false,
    emergencyStopPressed: false,
    ...scene.switches,
  };
  const link = scene.mute === true ? ('mute' as const) : ('up' as const);
  const { outputs, snapshot } = step;
  const { phase } = state.procedure;
  checkOutputs({ frame: { timeS: boardS, link, switches }, outputs, snapshot, phase });
}

const OVER = ['stopping', 'stopped', 'aborting', 'aborted', 'complete'];

function checkAgreement({ state }: Unit<Repair>, { step, batch }: Model): void {
  const { phase } = state.procedure;
  const is = state.batch === 'running' ? 'running' : OVER.includes(state.batch) ? 'over' : 'held';
  if (phase !== step) throw new Error(`the unit is in ${phase}, the model in ${step}`);
  if (is !== batch) throw new Error(`in ${phase} the unit is ${state.batch}, the model ${batch}`);
}

/** Lets time pass until something is so, or for so long. */
export function passJob(job: Job, longestS: number, isSo: (now: Job) => boolean, scene?: Scene) {
  let now = job;
  for (let left = longestS; left > 0 && !now.unit.state.ended && !isSo(now); left -= 0.05) {
    now = stepJob(now, scene);
  }
  return now;
}

/** A person waits for an answer of theirs, or the job has come to rest. */
export const isForPerson = ({ unit }: Job): boolean => {
  const { state } = unit;
  if (['held', 'stopped', 'aborted', 'complete'].includes(state.batch)) return true;
  return state.batch === 'running' && mayAnswer(unit);
};

/** A press on a screen that has been read. */
export const press = (job: Job, button: Button): Job =>
  stepJob(
    passJob(job, 1.7, ({ unit }) => unit.state.screen.shownS >= 1.6),
    { pressed: [button] },
  );

/** In the very tick of the press, whatever it was doing. */
export function hold(job: Job): Job {
  const held = stepJob(job, { pressed: ['hold'], ladder: 'hold' });
  const { batch, commanded } = held.unit.state;
  if (!isSafe(commanded)) throw new Error(`HOLD is not safe in ${job.model.step}`);
  if (batch !== 'holding' && batch !== 'held') throw new Error(`HOLD leaves it ${batch}`);
  return held;
}

/** Pressed for a second, and pulled out again. */
export function emergencyStop(job: Job): Job {
  const pressed = { switches: { emergencyStopPressed: true } };
  const now = stepJob(job, pressed);
  if (!isSafe(now.unit.state.commanded)) throw new Error(`the stop fails in ${job.model.step}`);
  return passJob(now, 1, () => false, pressed);
}

export const interrupt = (job: Job): Job =>
  stepJob(job, {}, [{ kind: 'stop', by: 'interrupt', why: 'Ctrl-C was pressed.' }]);

/**
 * The unit begins another attempt, after an end or after the power was lost in the middle of
 * anything; null where there is none to be had.
 */
export function nextAttempt(job: Job, way: WayOn): Job | null {
  const { unit, model } = job;
  const { procedure: walk, why } = unit.state;
  const { entry: before, ...config } = unit.config;
  const entry =
    why?.mustEnd === true
      ? 'none'
      : way === 'cure-only'
        ? (cureOnlyEntry(walk, before) ?? 'none')
        : goOnEntry(walk, before);
  const expected = attemptAfter(model, way);
  const at = entry === 'none' ? null : (entry?.at ?? 'anew');
  if (at !== expected) {
    const from = `${way} after ${model.step} of attempt ${job.attempt}`;
    throw new Error(`${from}: ${at}, where the model says ${expected}`);
  }
  if (at === null || entry === 'none') return null;
  return {
    unit: unitAtRest(REPAIR, withEntry(config, entry), unit.airPa),
    model: nextModel(model, at, way),
    attempt: job.attempt + 1,
    seal: 'tight',
    cold: job.cold,
  };
}

const withEntry = (config: Omit<RepairConfig, 'entry'>, entry: Entry | null): RepairConfig =>
  entry === null ? config : { ...config, entry };
