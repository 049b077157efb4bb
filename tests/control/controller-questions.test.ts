/** Questions at the glass: what a press means there, and that nothing is answered by accident. */
import { describe, expect, test } from 'vitest';
import { isSafe } from '../../src/core/frame.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { countsOf, createDriver, driveTo, type FrameChange } from '../drive.ts';
import { APART } from './apart-driver.ts';

/** The chamber as the default profile holds it, and the air. */
const VACUUM: FrameChange = { counts: { pressure: countsOf(25_000) } };
const AIR: FrameChange = { counts: { pressure: countsOf(100_600) } };

const answersOf = (step: ReturnType<ReturnType<typeof createDriver>['tick']>) =>
  step.events.flatMap((event) => (event.kind === 'answer' ? [event] : []));

describe('a leg grows just as the screen turns to "Bubbles?"', () => {
  /** The question has stood for so long. */
  const asked = (forS: number) => {
    const driver = createDriver();
    driveTo(driver, 'vacuum-dwell');
    let step = driver.last();
    while (step.snapshot.phase === 'vacuum-dwell') step = driver.tick(VACUUM);
    expect(step.snapshot.phase).toBe('ask-bubbles');
    driver.pass(forS, VACUUM);
    return driver;
  };

  test.each([0.05, 0.65, 5])('HOLD after %s s lets the air in at once and asks why', (forS) => {
    const driver = asked(forS);
    const step = driver.tick({ ...VACUUM, ladder: 'hold', pressed: ['hold'] });
    expect(answersOf(step)).toEqual([]);
    expect(step.snapshot.batch).toBe('holding');
    expect(isSafe(step.outputs)).toBe(true);
    const held = driver.pass(20, AIR);
    expect(held.snapshot).toMatchObject({ batch: 'held', phase: 'ask-bubbles' });
    expect(held.outputs.display.slice(0, 3).join('|')).toBe(
      '5.3 |? Why HOLD?    |Did a leg grow, or a|new one start?      ',
    );
  });

  test.each(['yes', 'no'] as const)(
    '%s after 0.65 s answers nothing and holds nothing',
    (button) => {
      const driver = asked(0.65);
      const step = driver.tick({ ...VACUUM, pressed: [button] });
      expect(answersOf(step)).toEqual([]);
      expect(step.snapshot).toMatchObject({ batch: 'running', phase: 'ask-bubbles' });
      expect(step.outputs.buzzer).toBe('once');
    },
  );

  test('behind MORE NO is refused, and HOLD holds', () => {
    const driver = createDriver();
    driveTo(driver, 'ask-bubbles');
    driver.press('more', VACUUM);
    let step = driver.tick(VACUUM);
    expect(step.outputs.display[3]).toContain('HOLD');
    step = driver.tick({ ...VACUUM, pressed: ['no'] });
    expect(step.snapshot.batch).toBe('running');
    step = driver.tick({ ...VACUUM, pressed: ['hold'] });
    expect(step.snapshot.batch).toBe('holding');
    expect(isSafe(step.outputs)).toBe(true);
  });
});

/** Answers "bubbles still rise" until the longest vacuum of the profile is over. */
function bubblingOn(driver: ReturnType<typeof createDriver>) {
  let step = driveTo(driver, 'ask-bubbles');
  for (let asked = 0; asked < 50 && step.snapshot.phase === 'ask-bubbles'; asked++) {
    step = driver.press('yes', VACUUM);
    while (step.snapshot.phase === 'vacuum-dwell') step = driver.tick(VACUUM);
  }
  return step;
}

describe('bubbles still rise when the longest vacuum is over', () => {
  test('the display says so and asks, with the air let in, before any pressure', () => {
    const driver = createDriver();
    let step = bubblingOn(driver);
    expect(step.snapshot.phase).toBe('bubbles-stay');
    step = driver.pass(30, AIR);
    expect(step.snapshot).toMatchObject({ phase: 'bubbles-stay', batch: 'running' });
    expect(isSafe(step.outputs)).toBe(true);
    expect(step.outputs.display[0]).toContain('Bubbles stay');
  });

  test('YES presses the resin in, and the answer is on record', () => {
    const driver = createDriver();
    bubblingOn(driver);
    const step = driver.press('yes', AIR);
    expect(answersOf(step)).toMatchObject([{ phase: 'bubbles-stay', answer: 'yes' }]);
    expect(['release', 'pressurise']).toContain(driver.pass(1, AIR).snapshot.phase);
  });

  test('NO leads back to the seal and its test, not to pressure', () => {
    const driver = createDriver();
    bubblingOn(driver);
    driver.press('no', AIR);
    expect(driver.pass(2, AIR).snapshot.phase).toBe('reseat');
    driver.press('yes', AIR);
    expect(driver.last().snapshot.phase).toBe('seal-pull');
  });
});

test.each([
  ['together', DEFAULT_CONFIG, 'fill-pit'],
  ['apart', APART, 'cover-fill'],
] as const)('a screen of its own asks for the injector off, cured %s', (_, config, next) => {
  const driver = createDriver(config);
  const step = driveTo(driver, 'injector-off');
  expect(step.outputs.display[0]).toContain('6.1 Injector off');
  driver.pass(2, AIR);
  driver.press('yes', AIR);
  expect(driver.pass(0.1, AIR).snapshot.phase).toBe(next);
});

test('UV-blocking glasses are asked for before the lamp burns', () => {
  const driver = createDriver(DEFAULT_CONFIG);
  const step = driveTo(driver, 'place-lamp');
  expect(step.outputs.lampEnabled).toBe(false);
  expect(step.outputs.display.join(' ')).toContain('UV glasses');
});
