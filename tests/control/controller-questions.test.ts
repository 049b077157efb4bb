/** Questions at the glass: what a press means there, and that nothing is answered by accident. */
import { describe, expect, test } from 'vitest';
import { isSafe } from '../../src/core/frame.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { countsOf, createDriver, driveTo, type FrameChange } from '../drive.ts';

/** The chamber as the default profile holds it, and the air. */
const VACUUM: FrameChange = { counts: { pressure: countsOf(25_000) } };
const AIR: FrameChange = { counts: { pressure: countsOf(100_600) } };

const answersOf = (step: ReturnType<ReturnType<typeof createDriver>['tick']>) =>
  step.events.flatMap((event) => (event.kind === 'answer' ? [event] : []));

describe('a leg grows just as the screen turns to "Bubbles?"', () => {
  test('NO pressed 0.65 s later lets the air in and holds: no pressure follows', () => {
    const driver = createDriver();
    driveTo(driver, 'vacuum-dwell');
    let step = driver.last();
    while (step.snapshot.phase === 'vacuum-dwell') step = driver.tick(VACUUM);
    expect(step.snapshot.phase).toBe('ask-bubbles');
    driver.pass(0.65, VACUUM);
    step = driver.tick({ ...VACUUM, pressed: ['no'] });
    expect(answersOf(step)).toEqual([]);
    expect(step.snapshot.batch).toBe('holding');
    expect(isSafe(step.outputs)).toBe(true);
    expect(driver.pass(20, AIR).snapshot).toMatchObject({ batch: 'held', phase: 'ask-bubbles' });
  });

  test('YES pressed that soon answers nothing', () => {
    const driver = createDriver();
    driveTo(driver, 'ask-bubbles');
    const fresh = createDriver();
    driveTo(fresh, 'vacuum-dwell');
    let step = fresh.last();
    while (step.snapshot.phase === 'vacuum-dwell') step = fresh.tick(VACUUM);
    fresh.pass(1, VACUUM);
    step = fresh.tick({ ...VACUUM, pressed: ['yes'] });
    expect(answersOf(step)).toEqual([]);
    expect(step.snapshot).toMatchObject({ batch: 'running', phase: 'ask-bubbles' });
  });

  test('MORE at the question offers hold, and NO from there holds', () => {
    const driver = createDriver();
    driveTo(driver, 'ask-bubbles');
    let step = driver.press('more', VACUUM);
    step = driver.tick(VACUUM);
    expect(step.outputs.display[3]).toContain('NO=hold');
    step = driver.tick({ ...VACUUM, pressed: ['no'] });
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
    expect(step.outputs.display[0]).toContain('Still bubbling');
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

describe('a held job', () => {
  const held = () => {
    const driver = createDriver();
    driveTo(driver, 'inspect');
    driver.press('no', AIR);
    driver.pass(20, AIR);
    expect(driver.last().snapshot.batch).toBe('held');
    return driver;
  };

  test('asks again before NO ends it', () => {
    const driver = held();
    driver.press('no', AIR);
    let step = driver.tick(AIR);
    expect(step.snapshot.batch).toBe('held');
    expect(step.outputs.display[1]).toContain('End this job?');
    expect(step.outputs.display[3]).toContain('YES=end NO=back');
    step = driver.press('yes', AIR);
    expect(['stopping', 'stopped']).toContain(step.snapshot.batch);
  });

  test('NO to that goes back to why it is held, and YES there goes on', () => {
    const driver = held();
    driver.press('no', AIR);
    driver.press('no', AIR);
    let step = driver.tick(AIR);
    expect(step.snapshot.batch).toBe('held');
    expect(step.outputs.display[1]).toContain('Held by hand');
    driver.press('yes', AIR);
    step = driver.pass(2, AIR);
    expect(step.snapshot.batch).toBe('running');
  });

  test('a YES that comes before the question could be read ends nothing', () => {
    const driver = held();
    driver.press('no', AIR);
    driver.pass(1, AIR);
    driver.tick({ ...AIR, pressed: ['yes'] });
    expect(driver.pass(1, AIR).snapshot.batch).toBe('held');
  });
});

test('the default flow says to take the injector off before the pit is filled', () => {
  const driver = createDriver(DEFAULT_CONFIG);
  const step = driveTo(driver, 'fill-pit');
  expect(step.outputs.display.join(' ')).toContain('Injector off');
});

test('UV-blocking glasses are asked for before the lamp burns', () => {
  const driver = createDriver(DEFAULT_CONFIG);
  const step = driveTo(driver, 'place-lamp');
  expect(step.outputs.lampEnabled).toBe(false);
  expect(step.outputs.display.join(' ')).toContain('UV glasses');
});
