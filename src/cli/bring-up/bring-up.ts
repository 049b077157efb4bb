/**
 * Walks a person through the bring-up checklist, as a pure state machine: frames and keys in,
 * outputs and lines to print out. The checklist defines what a step looks for; `bring-up-command.ts`
 * prints lines and reads keys.
 */

import { judgeStep, QUIET, type Sample, type Step } from '../../../wiring/checklist/step.ts';
import { type Actuators, type Frame, type Outputs, SAFE, valueOrNull } from '../../core/frame.ts';
import type { ChannelSettings } from '../../signal/channels.ts';
import { INITIAL_SIGNAL_MEMORY, type SignalMemory, stepDecode } from '../../signal/decode.ts';

/**
 * Between steps. Earlier trips, such as a watchdog reset at power-up, must not fail the next step.
 */
const AT_REST: Outputs = { ...QUIET, clearTrips: true };

export type StepResult = 'passed' | 'failed' | 'skipped' | 'not reached';

export interface WalkState {
  readonly at: number;
  /** `offered`: waits for a key to begin; `failed`: waits for a key to repeat or skip. */
  readonly phase: 'offered' | 'running' | 'failed' | 'over';
  readonly samples: readonly Sample[];
  readonly answer: 'yes' | 'no' | null;
  readonly commanded: Outputs | null;
  readonly signal: SignalMemory;
  readonly results: readonly StepResult[];
}

export interface WalkStep {
  readonly state: WalkState;
  readonly lines: readonly string[];
}

export type WalkKey = 'go' | 'yes' | 'no' | 'skip' | 'quit';

export function startWalk(steps: readonly Step[]): WalkStep {
  const state: WalkState = {
    at: 0,
    phase: 'offered',
    samples: [],
    answer: null,
    commanded: null,
    signal: INITIAL_SIGNAL_MEMORY,
    results: steps.map(() => 'not reached'),
  };
  return { state, lines: offer(steps, 0) };
}

/** Handles one frame; the outputs are `commanded` in the state, null for silence. */
export function walkFrame(
  steps: readonly Step[],
  state: WalkState,
  frame: Frame,
  channels: ChannelSettings,
): WalkStep {
  const acted: Actuators = state.commanded ?? SAFE;
  const { memory, reading } = stepDecode(state.signal, frame, acted, channels);
  const read = { ...state, signal: memory };
  const step = steps[state.at];
  if (state.phase !== 'running' || step === undefined) {
    return { state: { ...read, commanded: AT_REST }, lines: [] };
  }
  const samples = [
    ...state.samples,
    {
      frame,
      pressurePa: valueOrNull(reading.pressurePa),
      irradianceWPerM2: valueOrNull(reading.irradianceWPerM2),
      glassK: valueOrNull(reading.glassK),
      heatSinkK: valueOrNull(reading.heatSinkK),
      supplyV: valueOrNull(reading.supplyV),
    },
  ];
  const { answer, commanded } = state;
  const { verdict, why } = judgeStep(step, { samples, commanded, answer });
  if (verdict === 'waiting') {
    return { state: { ...read, samples, commanded: step.outputs(samples) }, lines: [] };
  }
  if (verdict === 'passed') {
    return finish(steps, { ...read, commanded: QUIET }, 'passed', [`   passed: ${step.expected}`]);
  }
  const failed = { ...read, phase: 'failed', commanded: QUIET } as const;
  const lines = [`   FAILED. ${why}`, `   ${step.onFailure}`, '   Enter repeat, s skip, q quit'];
  return { state: withResult(failed, 'failed'), lines };
}

export function walkKey(steps: readonly Step[], state: WalkState, key: WalkKey): WalkStep {
  if (key === 'quit') return { state: { ...state, phase: 'over' }, lines: [] };
  if (state.phase === 'running') {
    const asked = steps[state.at]?.question !== null;
    if (key === 'skip') return finish(steps, state, 'skipped', ['   skipped']);
    const answer = key === 'yes' || key === 'no' ? key : null;
    return { state: asked && answer !== null ? { ...state, answer } : state, lines: [] };
  }
  if (key === 'skip') {
    const result = state.phase === 'failed' ? 'failed' : 'skipped';
    return finish(steps, state, result, result === 'skipped' ? ['   skipped'] : []);
  }
  return key === 'go' && state.phase !== 'over' ? begin(steps, state) : { state, lines: [] };
}

function begin(steps: readonly Step[], state: WalkState): WalkStep {
  const question = steps[state.at]?.question ?? null;
  return {
    state: { ...state, phase: 'running', samples: [], answer: null },
    lines: [question === null ? '   looking ...' : `   ${question} (y/n)`],
  };
}

function finish(
  steps: readonly Step[],
  state: WalkState,
  result: StepResult,
  lines: readonly string[],
): WalkStep {
  const at = state.at + 1;
  const over = at >= steps.length;
  const next: WalkState = {
    ...withResult(state, result),
    at,
    phase: over ? 'over' : 'offered',
    samples: [],
    answer: null,
    commanded: QUIET,
  };
  return { state: next, lines: over ? lines : [...lines, ...offer(steps, at)] };
}

const withResult = (state: WalkState, result: StepResult): WalkState => ({
  ...state,
  results: state.results.map((old, index) => (index === state.at ? result : old)),
});

function offer(steps: readonly Step[], at: number): readonly string[] {
  const step = steps[at];
  if (step === undefined) return [];
  return [
    '',
    `${at + 1}/${steps.length}  ${step.title}`,
    ...(step.caution === null ? [] : [`   CAUTION: ${step.caution}`]),
    `   Do:        ${step.todo}`,
    `   The unit:  ${step.meanwhile}`,
    `   Expected:  ${step.expected}`,
    '   Enter begin, s skip, q quit',
  ];
}

export function walkSummary(steps: readonly Step[], { results }: WalkState): readonly string[] {
  const rows = steps.map(({ title }, index) => `  ${(results[index] ?? '').padEnd(12)}${title}`);
  const passed = results.filter((result) => result === 'passed').length;
  return ['', ...rows, '', `${passed} of ${steps.length} steps passed.`];
}

export const walkPassed = ({ results }: WalkState): boolean =>
  results.every((result) => result === 'passed');
