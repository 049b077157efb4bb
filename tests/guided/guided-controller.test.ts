import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isSafe } from '../../src/frame.ts';
import { GUIDED_STEPS } from '../../src/guided/progress.ts';
import { PROCEDURES, STEP_IDS } from '../../src/guided/step.ts';
import type { GuidedStepResult } from '../../src/guided-state.ts';
import { createGuidedDriver, guideTo } from './driver.ts';
import { ES } from './words.ts';

/** Steps in which something moves or shines. */
const LIVELY = {
  'vacuum-pull': 'pressure',
  'vacuum-settle': 'pressure',
  'vacuum-read': 'pressure',
  'over-press': 'pressure',
  'over-settle': 'pressure',
  'over-read': 'pressure',
  'light-settle': 'uv',
  'light-read': 'uv',
  'pump-ultimate': 'health',
  'leak-watch': 'health',
} as const;
type Lively = keyof typeof LIVELY;
const LIVELY_STEPS = Object.keys(LIVELY) as Lively[];

const safe = ({ outputs }: GuidedStepResult): boolean => isSafe(outputs);

test('the lively steps are all that the tables know, and the pump-down that one tick ends here', () => {
  const lively = STEP_IDS.filter((id) => {
    const { lamp, air } = GUIDED_STEPS[id];
    const held = { atmospherePa: 100_000 } as Parameters<typeof air>[0];
    const figures = { pressure: { heldPa: 0, checkGaugePa: 0 } } as Parameters<typeof air>[1];
    return lamp || air(held, figures).air !== 'vented';
  });
  expect(lively.filter((id) => id !== 'pump-down').sort()).toEqual([...LIVELY_STEPS].sort());
});

describe.each(LIVELY_STEPS)('in %s', (step) => {
  const there = () => {
    const driver = createGuidedDriver(LIVELY[step]);
    const at = guideTo(driver, step);
    const next = driver.tick();
    expect(safe(at) && safe(next), `${step} moves nothing`).toBe(false);
    return driver;
  };

  test('the emergency stop makes safe in the same tick and ends it', () => {
    const driver = there();
    const pressed = { switches: { emergencyStopPressed: true } };
    expect(safe(driver.tick(pressed))).toBe(true);
    driver.pass(10, pressed);
    driver.press('yes', pressed);
    const { state, snapshot } = driver.press('yes', pressed);
    expect(snapshot.batch).toBe('aborted');
    expect(state.endReason).toBe('alarm');
  });

  test('a mute link makes safe in the same tick and goes on with nobody', () => {
    const driver = there();
    expect(safe(driver.tick({ link: 'mute' }))).toBe(true);
    driver.pass(2, { link: 'mute' });
    expect(safe(driver.pass(20))).toBe(true);
  });

  test('Ctrl-C ends it safe, without anybody to read it', () => {
    const driver = there();
    const first = driver.tick({}, [{ kind: 'stop', by: 'interrupt', why: 'Ended by a test.' }]);
    expect(safe(first)).toBe(true);
    const last = driver.pass(4);
    expect(last.state.ended).toBe(true);
    expect(last.state.endReason).toBe('interrupted');
  });

  test('a lost sensor makes safe', () => {
    const driver = there();
    const lost = step.startsWith('light') ? { irradiance: 0 } : { pressure: 0 };
    expect(safe(driver.pass(0.5, { counts: lost }))).toBe(true);
  });
});

test('the lamp never burns with the shield open, and goes on only by a person', () => {
  const driver = createGuidedDriver('uv');
  guideTo(driver, 'light-settle');
  expect(driver.pass(1).outputs.lampEnabled).toBe(true);
  const open = { switches: { shieldClosed: false } };
  expect(safe(driver.tick(open))).toBe(true);
  driver.pass(10, open);
  expect(safe(driver.pass(10))).toBe(true);
});

describe('waiting', () => {
  test('nobody who answers ends it stopped, not failed', () => {
    const driver = createGuidedDriver('pressure');
    guideTo(driver, 'gauge-join');
    driver.pass(905);
    const { snapshot, state } = driver.pass(5);
    expect(snapshot.batch).toBe('stopped');
    expect(state.why).toEqual({ say: 'nobodyAnswered' });
    expect(state.endReason).toBe('stopped-by-person');
  });

  test('a reading that does not stand still ends it, and the display says what to look for', () => {
    const driver = createGuidedDriver('pressure');
    guideTo(driver, 'vacuum-settle');
    let step = driver.tick();
    // Ten times the slope that counts as steady.
    for (let i = 0; i < 120 * 20 && step.snapshot.batch === 'running'; i++) {
      step = driver.tick({ counts: { pressure: 184 + Math.floor(i / 20) } });
    }
    step = driver.pass(12);
    expect(step.state.why).toEqual({ late: 'vacuum-settle' });
    expect(step.outputs.display.join(' ')).toContain('The pressure creeps');
    expect(step.state.endReason).toBe('alarm');
  });

  test('what a person is asked under vacuum has a shorter deadline than the board’s patience', () => {
    const driver = createGuidedDriver('pressure');
    guideTo(driver, 'vacuum-read');
    driver.pass(119);
    expect(driver.tick().snapshot.batch).toBe('running');
    expect(driver.pass(14).snapshot.batch).toBe('stopped');
  });
});

describe('held', () => {
  test('it goes on where the part began, and forgets what was read in it', () => {
    const driver = createGuidedDriver('pressure');
    guideTo(driver, 'vacuum-enter');
    expect(driver.pass(1).state.progress.taken).not.toBeNull();
    driver.tick({}, [{ kind: 'hold' }]);
    expect(driver.pass(12).snapshot.batch).toBe('held');
    driver.press('yes');
    const steps: string[] = [];
    let step = driver.tick();
    for (let i = 0; i < 30; i++) {
      for (const event of step.events) if (event.kind === 'step') steps.push(event.step);
      step = driver.tick();
    }
    const { state } = step;
    expect(steps[0]).toBe('vacuum-pull');
    expect(state.progress.taken).toBeNull();
    expect(state.progress.entry).toBeNull();
    expect(state.progress.points).toHaveLength(1);
  });

  test('NO asks whether to end, YES ends it there, and NO goes back', () => {
    const driver = createGuidedDriver('pressure');
    guideTo(driver, 'gauge-join');
    driver.press('no');
    driver.pass(12);
    driver.press('no');
    expect(driver.pass(12).snapshot.batch).toBe('held');
    expect(driver.tick().outputs.display[3]).toContain('YES=end NO=back');
    driver.press('no');
    expect(driver.pass(3).outputs.display[0]).toContain('|| Held');
    driver.press('no');
    driver.pass(3);
    driver.press('yes');
    expect(driver.pass(12).snapshot.batch).toBe('stopped');
  });
});

describe('a number', () => {
  test('NO lowers, MORE raises, YES takes', () => {
    const driver = createGuidedDriver('pressure');
    guideTo(driver, 'air-enter');
    const before = driver.pass(1).outputs.display[1];
    driver.tick({ pressed: ['more'] });
    expect(driver.pass(1).outputs.display[1]).not.toBe(before);
    driver.tick({ pressed: ['no'] });
    expect(driver.pass(1).outputs.display[1]).toBe(before);
    const { state } = driver.press('yes');
    expect(state.progress.points).toHaveLength(1);
  });

  test('a typed one is taken as it is, and one that no gauge shows is refused', () => {
    const driver = createGuidedDriver('pressure');
    guideTo(driver, 'air-enter');
    driver.pass(1);
    const refused = driver.tick({}, [{ kind: 'enter', valueSI: 4e6 }]);
    expect(refused.events.some(({ kind }) => kind === 'refused')).toBe(true);
    expect(refused.state.progress.points).toHaveLength(0);
    const { state } = driver.tick({}, [{ kind: 'enter', valueSI: 100_640 }]);
    expect(state.progress.points[0]?.reference).toBeCloseTo(100_640, 6);
  });

  test('one given beforehand is taken without a press', () => {
    const driver = createGuidedDriver('pressure', { given: [100_710] });
    guideTo(driver, 'air-enter');
    driver.pass(0.2);
    const { state, snapshot } = driver.pass(0.2);
    expect(state.progress.points[0]?.reference).toBeCloseTo(100_710, 6);
    expect(snapshot.step).not.toBe('air-enter');
  });
});

test('the result that a person throws away is not kept, and that is a choice, not a failure', () => {
  const driver = createGuidedDriver('pressure');
  guideTo(driver, 'pressure-result');
  driver.pass(1);
  const { state } = driver.press('no');
  expect(state.ended).toBe(true);
  expect(state.progress.kept).toBe(false);
  expect(state.endReason).toBe('stopped-by-person');
});

test('whatever is pressed and whenever, nothing moves while it does not run, and every line fits', () => {
  const presses = fc.array(
    fc.tuple(fc.constantFrom('yes', 'no', 'more', 'hold', 'stop'), fc.integer({ min: 1, max: 60 })),
    { maxLength: 40 },
  );
  fc.assert(
    fc.property(fc.constantFrom(...PROCEDURES), presses, (procedure, all) => {
      const driver = createGuidedDriver(procedure, { words: ES });
      for (const [what, ticks] of all) {
        const request =
          what === 'hold'
            ? [{ kind: 'hold' } as const]
            : what === 'stop'
              ? [{ kind: 'stop', by: 'person', why: 'test' } as const]
              : [{ kind: 'button', button: what as 'yes' | 'no' | 'more' } as const];
        let step = driver.tick({}, request);
        for (let i = 0; i < ticks; i++) {
          if (step.snapshot.batch !== 'running') expect(safe(step)).toBe(true);
          for (const line of step.outputs.display) expect(line).toHaveLength(20);
          step = driver.tick();
        }
      }
    }),
    { numRuns: 30 },
  );
});
