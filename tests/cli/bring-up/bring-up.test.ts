/** The walk through a checklist, with a short one made by hand. */
import { describe, expect, test } from 'vitest';
import {
  startWalk,
  type WalkKey,
  type WalkState,
  walkFrame,
  walkKey,
  walkPassed,
  walkSummary,
} from '../../../src/cli/bring-up/bring-up.ts';
import type { Frame } from '../../../src/core/frame.ts';
import { acting, QUIET, type Step } from '../../../wiring/checklist/step.ts';
import { DEFAULT_CONFIG } from '../../configs.ts';
import { HEALTHY_FRAME } from '../../frames.ts';

const MOVING = acting({ pumpRatio: 0.3 });

const SEES_PRESSURE: Step = {
  id: 'sees-pressure',
  title: 'Sees a pressure',
  caution: 'Mind the hose.',
  todo: 'Wait.',
  meanwhile: 'Runs the pump.',
  outputs: () => MOVING,
  expected: 'a pressure.',
  question: null,
  verdict: ({ samples }) => (samples.length > 3 ? 'passed' : 'waiting'),
  ownTrips: [],
  timeoutS: 2,
  onFailure: 'Look at the plug.',
};
const HEARS: Step = {
  ...SEES_PRESSURE,
  id: 'hears',
  title: 'Hears a click',
  caution: null,
  question: 'Did it click?',
  verdict: ({ answer }) => (answer === null ? 'waiting' : answer === 'yes' ? 'passed' : 'failed'),
};
const STEPS = [SEES_PRESSURE, HEARS];

function walker() {
  let n = 0;
  let { state, lines } = startWalk(STEPS);
  const said: string[] = [...lines];
  const take = (next: { state: WalkState; lines: readonly string[] }): WalkState => {
    ({ state, lines } = next);
    said.push(...lines);
    return state;
  };
  const frames = (count: number, change: Partial<Frame> = {}): WalkState => {
    for (let i = 0; i < count; i++) {
      const timeS = n++ * 0.05;
      const frame = { ...HEALTHY_FRAME, sequence: n, timeS, sampledAtS: timeS, ...change };
      take(walkFrame(STEPS, state, frame, DEFAULT_CONFIG.unit.channels));
    }
    return state;
  };
  const key = (name: WalkKey): WalkState => take(walkKey(STEPS, state, name));
  return { frames, key, state: () => state, said };
}

describe('the walk through the checklist', () => {
  test('drives nothing until the person has read the step and begins it', () => {
    const walk = walker();
    expect(walk.said).toContain('   CAUTION: Mind the hose.');
    expect(walk.frames(100).commanded).toEqual({ ...QUIET, clearTrips: true });
    walk.key('go');
    expect(walk.frames(1).commanded).toEqual(MOVING);
  });

  test('a step that passes is followed by the offer of the next, with the outputs safe', () => {
    const walk = walker();
    walk.key('go');
    const state = walk.frames(5);
    expect(state).toMatchObject({ at: 1, phase: 'offered', results: ['passed', 'not reached'] });
    expect(state.commanded).toEqual({ ...QUIET, clearTrips: true });
    expect(walk.said).toContain('2/2  Hears a click');
  });

  test('the person answers the question of a step with yes or no', () => {
    for (const [answer, results] of [
      ['yes', ['skipped', 'passed']],
      ['no', ['skipped', 'failed']],
    ] as const) {
      const walk = walker();
      walk.key('skip');
      walk.key('go');
      walk.frames(3);
      walk.key(answer);
      expect(walk.frames(1).results).toEqual(results);
    }
  });

  test('a failed step says what to look for, leaves the outputs safe, and can be repeated', () => {
    const walk = walker();
    walk.key('go');
    const failed = walk.frames(2, { trips: ['watchdog'] });
    expect(failed).toMatchObject({
      phase: 'failed',
      commanded: { ...QUIET, clearTrips: true },
    });
    expect(walk.said).toContain('   Look at the plug.');
    walk.key('go');
    expect(walk.frames(5).results[0]).toBe('passed');
  });

  test('a failed step that is not repeated stays failed', () => {
    const walk = walker();
    walk.key('go');
    walk.frames(2, { link: 'mute', sampledAtS: -1 });
    walk.key('skip');
    expect(walk.state().results[0]).toBe('failed');
    expect(walkPassed(walk.state())).toBe(false);
  });

  test('quitting leaves the rest not reached, and only a walk with every step passed has passed', () => {
    const walk = walker();
    walk.key('go');
    walk.frames(5);
    expect(walkSummary(STEPS, walk.key('quit'))).toContain('1 of 2 steps passed.');
    expect(walkPassed(walk.state())).toBe(false);
    const whole = walker();
    whole.key('go');
    whole.frames(5);
    whole.key('go');
    whole.key('yes');
    whole.frames(1);
    expect(whole.state().phase).toBe('over');
    expect(walkPassed(whole.state())).toBe(true);
  });
});
