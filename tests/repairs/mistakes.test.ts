/**
 * A person who makes a mistake: what the unit does not take, what it finds, and what only a look at
 * the break can find. The truth is the plant's.
 */
import { describe, expect, test } from 'vitest';
import { worldOf } from '../../sim/plant/world.ts';
import type { Event } from '../../src/core/events.ts';
import { isSafe } from '../../src/core/frame.ts';
import { type BenchRun, runRepair } from '../bench.ts';
import { BRIEF } from './brief.ts';
import { MISTAKES } from './mistakes.ts';

const OPEN_BREAK = worldOf(
  { type: 'bullseye', diameterM: 0.01, pitM: 0.002, legs: 0, longestLegM: 0 },
  0.05,
);

const runs = new Map<string, BenchRun>();
function jobWith(name: string | null): BenchRun {
  const known = runs.get(name ?? '');
  if (known !== undefined) return known;
  const faults = name === null ? [] : [name];
  const run = runRepair({ faults, config: BRIEF, scenario: { world: OPEN_BREAK } });
  runs.set(name ?? '', run);
  return run;
}

const phasesOf = ({ events }: BenchRun) =>
  events.flatMap((event) => (event.kind === 'phase' ? [event.phase] : []));
const isRefused = (event: Event) => event.kind === 'refused';

describe('a person who does everything right', () => {
  test('ends with a clear break, no alarm, and no press that is refused', () => {
    const run = jobWith(null);
    expect([run.end, run.outcome, run.alarms]).toEqual(['completed', 'clear', []]);
    expect(run.events.filter(isRefused)).toEqual([]);
  });
});

describe.each(Object.entries(MISTAKES))('%s', (name, { alarms, outcome, filled, hard }) => {
  test('raises what it should, and ends as the person at the end finds it', () => {
    const run = jobWith(name);
    expect(run.alarms).toEqual(alarms);
    const end = outcome === null ? 'stopped-by-person' : 'completed';
    expect([run.end, run.outcome]).toEqual([end, outcome]);
  });

  test('leaves the break as it truly is', () => {
    const { filledRatio, tacky } = jobWith(name).board.view();
    expect(filledRatio > 0.95).toBe(filled);
    expect(tacky === false).toBe(hard);
  });
});

describe.each(['early-yes', 'double-press'])('%s', (name) => {
  test('skips no step and answers none: the job takes the way of a sound one', () => {
    expect(phasesOf(jobWith(name))).toEqual(phasesOf(jobWith(null)));
    const answersOf = ({ events }: BenchRun) =>
      events.flatMap((event) => (event.kind === 'answer' ? [[event.phase, event.answer]] : []));
    expect(answersOf(jobWith(name))).toEqual(answersOf(jobWith(null)));
  });

  test('has every such press on record as refused, with its reason', () => {
    const refused = jobWith(name).events.filter(isRefused);
    // One in each of its twenty steps, and in some that go by themselves.
    expect(refused.length).toBeGreaterThanOrEqual(20);
    const whys = refused.flatMap((event) => (event.kind === 'refused' ? [event.why] : []));
    expect([...new Set(whys)]).toEqual(['pressed before the screen could be read']);
  });
});

test('with nobody there the unit lets the air in after three minutes of vacuum, and waits', () => {
  let asksFromS = Number.NaN;
  let ventedAtS = Number.NaN;
  let worked = 0;
  const run = runRepair({
    faults: ['walks-off'],
    config: BRIEF,
    scenario: { world: OPEN_BREAK },
    watch: ({ frame, snapshot, outputs }) => {
      if (Number.isNaN(asksFromS) && snapshot.phase === 'ask-bubbles') asksFromS = frame.timeS;
      if (Number.isNaN(asksFromS)) return false;
      if (Number.isNaN(ventedAtS)) ventedAtS = isSafe(outputs) ? frame.timeS : Number.NaN;
      else if (!isSafe(outputs)) worked += 1;
      // Until the person is back.
      return frame.timeS > asksFromS + 599;
    },
  });
  expect(ventedAtS - asksFromS).toBeCloseTo(180, 0);
  expect(worked).toBe(0);
  expect(run.last.state.batch).toBe('held');
});

test('an injector that is lifted under pressure stops the pump at once, and the pressure is made anew', () => {
  const { events } = jobWith('lifted-injector');
  const raised = events.find((event) => event.kind === 'alarm');
  const held = events.find((event) => event.kind === 'batch' && event.to === 'holding');
  const entered = events.find(
    (event) => event.kind === 'phase' && event.phase === 'pressure-dwell',
  );
  expect(raised?.timeS).toBeCloseTo((entered?.timeS ?? 0) + 20.3, 0);
  expect(held?.timeS).toBe(raised?.timeS);
  const presses = phasesOf(jobWith('lifted-injector')).filter((one) => one === 'pressurise');
  expect(presses).toHaveLength(2);
});
