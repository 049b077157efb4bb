import { describe, expect, test } from 'vitest';
import type { ControllerStep } from '../../../src/control/controller.ts';
import type { Repair, RepairConfig } from '../../../src/procedure/repair/repair-state.ts';
import { DEFAULT_CONFIG } from '../../configs.ts';
import { countsOf, createDriver, type Driver, driveTo, type FrameChange } from '../../drive.ts';
import { HEALTHY_FRAME } from '../../frames.ts';
import { FILL_PASSES } from '../../light-path.ts';

const { profile, job } = DEFAULT_CONFIG;
const DEEP: RepairConfig = {
  ...DEFAULT_CONFIG,
  profile: { ...profile, cure: { ...profile.cure, targetAtResinJPerM2: 2000, leastS: 10 } },
  job: { ...job, damage: { ...job.damage, depthM: 2e-3 } },
};
/** Exp(2) times the 1 kJ/m2 of the demo resin, by margin, film and spot. */
const DEEP_J_PER_M2 = (1000 * Math.exp(2) * 2) / FILL_PASSES;

const lightCounts = (wPerM2: number): number => Math.round(1023 * (0.1 + (0.8 * wPerM2) / 400));

/** At its vacuum, under so much daylight, on so warm a glass. */
const dwelling = (wPerM2: number, glassCounts = HEALTHY_FRAME.counts.glassTemperature) => ({
  counts: {
    pressure: countsOf(25_000),
    irradiance: lightCounts(wPerM2),
    glassTemperature: glassCounts,
  },
  switches: { shieldClosed: false },
});

function told(
  driver: Driver,
  seconds: number,
  change: FrameChange,
): ControllerStep<Repair>['events'] {
  const events = [];
  for (let tick = 0; tick < seconds * 20; tick++) events.push(...driver.tick(change).events);
  return events;
}

const raised = (events: ControllerStep<Repair>['events']): readonly string[] =>
  events.flatMap((e) => (e.kind === 'alarm' && e.to === 'unacknowledged' ? [e.alarm] : []));

function measuredOn(driver: Driver, until: 'job-sheet' | 'cure' | 'scrape') {
  const values = new Map<string, number>();
  const spy: Driver = {
    ...driver,
    tick: (change, requests) => note(driver.tick(change, requests)),
    press: (button, change) => note(driver.press(button, change)),
    pass: (seconds, change) => {
      let step = spy.tick(change);
      for (let i = 1; i < seconds * 20; i++) step = spy.tick(change);
      return step;
    },
  };
  const note = (step: ControllerStep<Repair>): ControllerStep<Repair> => {
    for (const e of step.events) if (e.kind === 'measured') values.set(e.name, e.value);
    return step;
  };
  const step = driveTo(spy, until);
  return { values, step };
}

describe('a job', () => {
  test('states its target and what heat its longest leg bears before any work', () => {
    const { values } = measuredOn(createDriver(), 'job-sheet');
    expect(values.get('targetAtResinJPerM2')).toBe(48_000);
    expect(values.get('targetJPerM2')).toBeCloseTo(48_000 / FILL_PASSES, 6);
    expect(values.get('depthTargetJPerM2')).toBeCloseTo(
      (1000 * Math.exp(1.5) * 2) / FILL_PASSES,
      6,
    );
    expect(values.get('allowedSpotOverPaneK')).toBeCloseTo(5.71, 2);
    expect((values.get('allowedHeatingKPerS') ?? 0) * 60).toBeCloseTo(10, 9);
  });

  test('on a deep break is cured to what its depth asks for, not to the profile’s dose', () => {
    const { values, step } = measuredOn(createDriver(DEEP), 'scrape');
    expect(step.snapshot.targetJPerM2).toBeCloseTo(DEEP_J_PER_M2, 6);
    expect(values.get('doseJPerM2')).toBeGreaterThan(DEEP_J_PER_M2);
    expect(values.get('openResinDoseJPerM2')).toBe(0);
    expect(values.get('openResinUnseenJPerM2')).toBeGreaterThan(100);
    // The lamp warms this glass by 3 K in the end, with a time constant of 150 s.
    expect(values.get('greatestSpotOverPaneK')).toBeLessThan(3);
    expect(values.get('greatestHeatingKPerS')).toBeLessThan(3 / 150);
  });

  test('counts no daylight before resin is charged', () => {
    const driver = createDriver();
    const sun: FrameChange = {
      counts: { irradiance: lightCounts(20) },
      switches: { shieldClosed: false },
    };
    driveTo(driver, 'connect-hose');
    driver.pass(10, sun);
    expect(driver.last().state.scene.openResin.doseJPerM2).toBe(0);
    driveTo(driver, 'charge-injector');
    driver.pass(10, sun);
    expect(driver.last().state.scene.openResin.doseJPerM2).toBeGreaterThan(180);
  });
});

describe('daylight on resin that waits', () => {
  test('warns at half of what sets it, holds at the whole, and lets a fresh drop go on', () => {
    const driver = createDriver();
    driveTo(driver, 'vacuum-dwell');
    expect(raised(told(driver, 23, dwelling(20)))).toEqual([]);
    expect(raised(told(driver, 4, dwelling(20)))).toEqual(['daylight-near']);
    expect(raised(told(driver, 20, dwelling(20)))).toEqual([]);
    expect(raised(told(driver, 5, dwelling(20)))).toEqual(['daylight-set']);
    expect(driver.last().outputs.ventOpen).toBe(true);

    const air = (wPerM2: number): FrameChange => {
      const { counts, switches } = dwelling(wPerM2);
      return { counts: { ...counts, pressure: HEALTHY_FRAME.counts.pressure }, switches };
    };
    driver.pass(1, air(20));
    expect(driver.last().state.batch).toBe('held');
    for (let alarm = 0; alarm < 2; alarm++) driver.press('yes', air(20));
    driver.press('yes', air(20));
    expect(driver.last().state.batch).toBe('held');
    driver.pass(3, air(0));
    for (let look = 0; look < 3 && driver.last().state.batch === 'held'; look++) {
      driver.press('yes', air(0));
    }
    expect(driver.last().state.batch).toBe('restarting');
    expect(driver.last().state.scene.openResin.doseJPerM2).toBe(0);
  });

  test('is told of nothing where the resin’s figure is not known', () => {
    const unknown = { ...DEFAULT_CONFIG, job: { ...job, resin: { ...job.resin, curve: null } } };
    const driver = createDriver(unknown);
    driveTo(driver, 'vacuum-dwell');
    expect(raised(told(driver, 55, dwelling(20)))).toEqual([]);
    expect(driver.last().state.scene.openResin.doseJPerM2).toBeGreaterThan(1000);
  });
});

describe('heat at the spot', () => {
  test('too fast holds the job with difference, rate, K and leg in its cause', () => {
    const driver = createDriver();
    driveTo(driver, 'vacuum-dwell');
    // Eleven counts are one kelvin: 0.25 K a second.
    const events = [];
    for (let s = 0; s < 25; s++) {
      const counts = Math.round(512 - 2.8 * s);
      events.push(...told(driver, 1, dwelling(0, counts)));
    }
    expect(raised(events)).toContain('heated-too-fast');
    const alarm = events.find((e) => e.kind === 'alarm' && e.alarm === 'heated-too-fast');
    expect(alarm).toMatchObject({
      action: 'hold',
      cause: expect.stringMatching(
        /^Expected at most 10\.0 K\/min, seen \d\.\d K over the pane, 1\d\.\d K\/min; 10 mm leg: K up to 0\.\d\d, growth from 0\.25 MPa m\^0\.5$/,
      ),
      remedy: expect.stringMatching(/no water, no cold air.*slower, and wider/),
    });
  });

  test('that comes slowly and stays is held by its difference alone', () => {
    const driver = createDriver();
    driveTo(driver, 'vacuum-dwell');
    const short = [];
    // 4 K/min in steps of a count; the vacuum dwell is a minute, so it comes back by its question.
    for (let s = 0; s < 110; s++)
      short.push(...told(driver, 1, dwelling(0, 512 - Math.round(0.7 * s))));
    expect(raised(short)).toContain('spot-hot');
    expect(raised(short)).not.toContain('heated-too-fast');
  });
});
