/** A cure ends only with a sensor that was seen to fall to dark with the lamp. */
import { describe, expect, test } from 'vitest';
import type { Event } from '../../src/core/events.ts';
import { createDriver, driveTo, type FrameChange } from '../drive.ts';

const LIT: FrameChange = { lit: 511 };

function curing() {
  const driver = createDriver();
  driveTo(driver, 'cure');
  driver.pass(1, LIT);
  expect(driver.last().outputs.lampEnabled).toBe(true);
  return driver;
}

/** Lights the lamp until its dose is met and it goes out for the last look. */
function untilOut(driver: ReturnType<typeof createDriver>) {
  let step = driver.tick(LIT);
  const met = () => step.snapshot.doseJPerM2 >= step.snapshot.targetJPerM2;
  while (step.outputs.lampEnabled || !met()) step = driver.tick(LIT);
  return step;
}

/** The seconds at the end of the live line. */
const leftS = (line: string): number => Number(/(\d+) s$/.exec(line.trimEnd())?.[1]);

const measuredDose = (events: readonly Event[]) =>
  events.filter((event) => event.kind === 'measured' && event.name === 'doseJPerM2');

describe('the lamp is out', () => {
  test('before a cure, until the sensor has been seen dark', () => {
    const driver = createDriver();
    driveTo(driver, 'cure');
    for (let n = 0; n < 4; n++) expect(driver.tick(LIT).outputs.lampEnabled).toBe(false);
    expect(driver.pass(0.5, LIT).outputs.lampEnabled).toBe(true);
  });

  test('after a cure, and the dose is stated only once the sensor fell to dark', () => {
    const driver = curing();
    let outTicks = 0;
    let step = driver.tick(LIT);
    while (step.snapshot.phase === 'cure') {
      expect(measuredDose(step.events)).toEqual([]);
      outTicks = step.outputs.lampEnabled ? 0 : outTicks + 1;
      step = driver.tick(LIT);
    }
    expect(measuredDose(step.events)).toHaveLength(1);
    expect(step.snapshot.phase).toBe('scrape');
    expect(outTicks).toBeGreaterThanOrEqual(6);
  });

  test('for 0.3 s after every 20 to 30 s of a cure, and the panel does not show it', () => {
    const driver = curing();
    const gapTicks: number[] = [];
    const litTicks: number[] = [];
    let before = driver.last();
    let run = 0;
    for (let n = 0; n < 20 * 150; n++) {
      const step = driver.tick(LIT);
      const [was, is] = [before.outputs, step.outputs];
      expect(is.status).toEqual({ colour: 'green', flashing: false });
      expect(is.buzzer).toBe('off');
      // Dose and time left, with nothing but their figures changed.
      expect(is.display[1].replace(/\d/g, '0')).toBe(was.display[1].replace(/\d/g, '0'));
      if (!is.lampEnabled) expect(leftS(is.display[1])).toBeGreaterThan(0);
      run += 1;
      if (was.lampEnabled !== is.lampEnabled) {
        (was.lampEnabled ? litTicks : gapTicks).push(run);
        run = 0;
      }
      before = step;
    }
    expect(gapTicks.length).toBeGreaterThanOrEqual(5);
    for (const ticks of gapTicks) expect(ticks).toBeLessThanOrEqual(8);
    // The first stretch was joined when it had begun.
    for (const ticks of litTicks.slice(1)) {
      expect(ticks / 20).toBeGreaterThanOrEqual(20);
      expect(ticks / 20).toBeLessThanOrEqual(30.2);
    }
    expect(new Set(litTicks.slice(1)).size).toBeGreaterThan(2);
    expect(driver.last().snapshot).toMatchObject({ phase: 'cure', batch: 'running' });
  });
});

describe('a cure does not end as met', () => {
  test.each([
    ['a sensor that is stuck while it flickers by one count', 511],
    ['a zero that is 2.5 mW/cm2 off', 153],
  ])('with %s', (_, counts) => {
    const driver = curing();
    untilOut(driver);
    const events: Event[] = [];
    for (let n = 0; n < 20 * 60; n++) {
      events.push(...driver.tick({ counts: { irradiance: counts } }).events);
    }
    expect(measuredDose(events)).toEqual([]);
    expect(driver.last().snapshot.phase).toBe('cure');
    expect(driver.last().snapshot.batch).not.toBe('running');
  });

  test('with a shield that is opened as soon as the lamp is out: the look is made up for', () => {
    const driver = curing();
    untilOut(driver);
    const open: FrameChange = { switches: { shieldClosed: false } };
    const events: Event[] = [];
    for (let n = 0; n < 20 * 20; n++) events.push(...driver.tick(open).events);
    expect(measuredDose(events)).toEqual([]);
    expect(driver.last().snapshot).toMatchObject({ phase: 'cure', batch: 'held' });
  });

  test('with more light than this lamp ever gave, however often a person lets it go on', () => {
    const driver = createDriver();
    driveTo(driver, 'cure');
    const bright: FrameChange = { lit: 102 + 818 };
    const events: Event[] = [];
    for (let n = 0; n < 20 * 60 * 60; n++) {
      const pressed = n % 40 === 0 ? (['yes'] as const) : [];
      events.push(...driver.tick({ ...bright, pressed }).events);
    }
    const restarts = events.filter((event) => event.kind === 'batch' && event.to === 'restarting');
    expect(restarts.length).toBeGreaterThan(100);
    expect(measuredDose(events)).toEqual([]);
    expect(driver.last().snapshot).toMatchObject({ phase: 'cure', doseJPerM2: 0 });
  });

  test('with more light than this lamp ever gave', () => {
    const driver = createDriver();
    driveTo(driver, 'cure');
    // 1.4 times the 19.5 mW/cm2 of the demo lamp.
    driver.pass(4, { lit: 102 + 559 });
    expect(driver.last().snapshot.batch).not.toBe('running');
    expect(driver.last().outputs.lampEnabled).toBe(false);
  });
});
