import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ControllerStep } from '../../../src/control/controller.ts';
import { isSafe } from '../../../src/core/frame.ts';
import { PROCEDURES, STEP_IDS } from '../../../src/core/guided-events.ts';
import type { Guided } from '../../../src/procedure/guided/guided-state.ts';
import { GUIDED_STEPS } from '../../../src/procedure/guided/progress.ts';
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

const safe = ({ outputs }: ControllerStep<Guided>): boolean => isSafe(outputs);

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
    expect(state.why?.shown).toEqual({ say: 'nobodyAnswered' });
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
    expect(step.state.why?.shown).toEqual({ late: 'vacuum-settle' });
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
    expect(driver.pass(1).state.procedure.taken).not.toBeNull();
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
    expect(state.procedure.taken).toBeNull();
    expect(state.procedure.entry).toBeNull();
    expect(state.procedure.points).toHaveLength(1);
  });

  test('NO asks whether to end, YES ends it there, and NO goes back', () => {
    const driver = createGuidedDriver('pressure');
    guideTo(driver, 'gauge-join');
    driver.press('hold');
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

describe('as in a repair', () => {
  test('what would hold it is not told once it is over; what is dangerous still is', () => {
    const driver = createGuidedDriver('uv');
    guideTo(driver, 'radiometer-place');
    driver.tick({}, [{ kind: 'stop', by: 'person', why: 'test' }]);
    expect(driver.pass(4).snapshot.batch).toBe('stopped');
    const quiet = driver.pass(5, { counts: { supplyVoltage: 0, pressure: 0 } });
    expect(quiet.outputs.buzzer).toBe('off');
    expect(quiet.outputs.display[0]).toContain('--');
    const told = driver.pass(1, { switches: { emergencyStopPressed: true } });
    expect(told.outputs.display[0]).toMatch(/^! Emergency stop/);
  });

  test('live values are composed five times a second, and a dialled number at once', () => {
    const driver = createGuidedDriver('temperature');
    guideTo(driver, 'ice-settle');
    driver.pass(3);
    const composed = new Set<unknown>();
    for (let i = 0; i < 100; i++) composed.add(driver.tick().state.shown.signals);
    // In five seconds every 0.2 s, or a tick of 0.05 s later.
    expect(composed.size).toBeGreaterThanOrEqual(20);
    expect(composed.size).toBeLessThanOrEqual(26);
    const entry = createGuidedDriver('pressure');
    guideTo(entry, 'air-enter');
    entry.pass(1);
    const before = entry.tick().outputs.display[1];
    expect(entry.tick({ pressed: ['more'] }).outputs.display[1]).not.toBe(before);
  });

  test('what starts and goes on says why, in the words of a repair', () => {
    const driver = createGuidedDriver('pressure');
    const why: string[] = [];
    const note = ({ events }: ControllerStep<Guided>): void => {
      for (const event of events) if (event.kind === 'batch') why.push(event.why);
    };
    note(driver.tick());
    guideTo(driver, 'gauge-join');
    note(driver.tick({}, [{ kind: 'hold' }]));
    for (let i = 0; i < 300; i++) note(driver.tick());
    note(driver.tick({ pressed: ['yes'] }));
    for (let i = 0; i < 40; i++) note(driver.tick());
    expect(why).toEqual([
      'The unit was started.',
      'You held the procedure.',
      'You held the procedure.',
      'You let the job go on.',
      'All is well again.',
    ]);
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
    expect(state.procedure.points).toHaveLength(1);
  });

  test('a typed one is taken as it is, and one that no gauge shows is refused', () => {
    const driver = createGuidedDriver('pressure');
    guideTo(driver, 'air-enter');
    driver.pass(1);
    const refused = driver.tick({}, [{ kind: 'enter', valueSI: 4e6 }]);
    expect(refused.events.some(({ kind }) => kind === 'refused')).toBe(true);
    expect(refused.state.procedure.points).toHaveLength(0);
    const { state } = driver.tick({}, [{ kind: 'enter', valueSI: 100_640 }]);
    expect(state.procedure.points[0]?.reference).toBeCloseTo(100_640, 6);
  });

  test('typed where none is asked for is refused, and nothing is entered', () => {
    const driver = createGuidedDriver('pressure');
    guideTo(driver, 'gauge-join');
    const { events, state } = driver.tick({}, [{ kind: 'enter', valueSI: 100_640 }]);
    expect(events).toContainEqual({
      kind: 'refused',
      request: 'number',
      why: 'no number is asked for',
      timeS: expect.any(Number),
    });
    expect(state.procedure.step).toBe('gauge-join');
  });

  test('one given beforehand is taken without a press', () => {
    const driver = createGuidedDriver('pressure', { given: [100_710] });
    guideTo(driver, 'air-enter');
    driver.pass(0.2);
    const { state, snapshot } = driver.pass(0.2);
    expect(state.procedure.points[0]?.reference).toBeCloseTo(100_710, 6);
    expect(snapshot.step).not.toBe('air-enter');
  });
});

test('the result that a person throws away is not kept, and that is a choice, not a failure', () => {
  const driver = createGuidedDriver('pressure');
  guideTo(driver, 'pressure-result');
  driver.pass(1);
  const { state } = driver.press('no');
  expect(state.ended).toBe(true);
  expect(state.procedure.kept).toBe(false);
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
