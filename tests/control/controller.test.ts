import { describe, expect, test } from 'vitest';
import type { ControllerStep } from '../../src/control/controller.ts';
import { SAFE } from '../../src/core/frame.ts';
import type { Repair } from '../../src/procedure/repair/repair-state.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { countsOf, createDriver, driveTo, TICK_S } from '../drive.ts';

const actuatorsOf = ({ outputs }: ControllerStep<Repair>) => {
  const { pumpRatio, selector, ventOpen, lampEnabled, lampRatio } = outputs;
  return { pumpRatio, selector, ventOpen, lampEnabled, lampRatio };
};
const UNDER_PRESSURE = { counts: { pressure: countsOf(238_600) } };

describe('the unit', () => {
  test('takes the air that it reads in the self-test as the zero of the job', () => {
    const driver = createDriver();
    const step = driver.pass(3);
    expect(step.snapshot.phase).toBe('job-sheet');
    expect(step.snapshot.atmospherePa).toBeCloseTo(100_780, -3);
  });

  test('states the lamp’s last known output in the self-test, and warns when it would be too weak', () => {
    const measuredNames = (lampLastKnownWPerM2: number | null) => {
      const unit = { ...DEFAULT_CONFIG.unit, lampLastKnownWPerM2 };
      const driver = createDriver({ ...DEFAULT_CONFIG, unit });
      const names: string[] = [];
      for (let i = 0; i < 60; i++) {
        for (const event of driver.tick().events) {
          if (event.kind === 'measured') names.push(event.name);
          if (event.kind === 'alarm') names.push(event.alarm);
        }
      }
      return [...new Set(names)];
    };
    expect(measuredNames(195)).toEqual([
      'atmospherePa',
      'airLeftRatio',
      'lampLastKnownWPerM2',
      'targetAtResinJPerM2',
      'targetJPerM2',
      'depthTargetJPerM2',
      'allowedSpotOverPaneK',
      'allowedHeatingKPerS',
    ]);
    expect(measuredNames(null)).toEqual([
      'atmospherePa',
      'airLeftRatio',
      'targetAtResinJPerM2',
      'targetJPerM2',
      'depthTargetJPerM2',
      'allowedSpotOverPaneK',
      'allowedHeatingKPerS',
    ]);
    expect(measuredNames(90)).toContain('lamp-was-weak');
  });

  test('does not pass the self-test while the chamber is not at air pressure', () => {
    const driver = createDriver();
    driver.pass(9, { counts: { pressure: countsOf(30_000) } });
    expect(driver.last().snapshot.phase).toBe('self-test');
    const held = driver.pass(3, { counts: { pressure: countsOf(30_000) } });
    expect(held.snapshot.batch).toBe('held');
    expect(held.outputs.display[0]).toMatch(/^! Self-test/);
  });

  test('waits for a person as long as it takes, and then holds instead of moving on', () => {
    const driver = createDriver();
    driver.pass(3);
    expect(driver.pass(1700).snapshot.phase).toBe('job-sheet');
    const step = driver.pass(150);
    expect(step.snapshot.phase).toBe('job-sheet');
    expect(step.snapshot.batch).toBe('held');
  });

  test('a double press answers one prompt, not two', () => {
    const driver = createDriver();
    driver.pass(3.5);
    driver.tick({ pressed: ['yes'] });
    driver.tick({ pressed: ['yes'] });
    expect(driver.pass(0.2).snapshot.phase).toBe('protect');
  });

  test('HOLD holds at any prompt; YES then goes on in the same place', () => {
    const driver = createDriver();
    driver.pass(3);
    driver.press('hold');
    expect(driver.pass(1).snapshot.batch).toBe('held');
    driver.press('no');
    driver.press('no');
    driver.press('yes');
    const step = driver.pass(2);
    expect(step.snapshot).toMatchObject({ batch: 'running', phase: 'job-sheet' });
  });

  test('MORE opens the longer explanation and YES closes it without answering', () => {
    const driver = createDriver();
    driver.pass(3);
    expect(driver.press('more').outputs.display[0]).toMatch(/^2\.1 \? /);
    const step = driver.press('yes');
    expect(step.outputs.display[0]).toMatch(/^2\.1 Job sheet/);
    expect(step.snapshot.phase).toBe('job-sheet');
  });
});

describe('under pressure', () => {
  const underPressure = () => {
    const driver = createDriver();
    driveTo(driver, 'pressure-dwell');
    expect(driver.tick(UNDER_PRESSURE).outputs.ventOpen).toBe(false);
    return driver;
  };

  test('vents in the tick in which the over-pressure switch opens', () => {
    const driver = underPressure();
    const step = driver.tick({ ...UNDER_PRESSURE, switches: { overPressureTripped: true } });
    expect(actuatorsOf(step)).toEqual(SAFE);
    expect(step.snapshot.batch).toBe('aborting');
  });

  test('everything is off in the tick in which the emergency stop is pressed', () => {
    const driver = underPressure();
    const step = driver.tick({ ...UNDER_PRESSURE, switches: { emergencyStopPressed: true } });
    expect(actuatorsOf(step)).toEqual(SAFE);
  });

  test('vents at once when the pressure reading is lost, before any alarm delay', () => {
    const driver = underPressure();
    const lost = { counts: { pressure: 0 } };
    // The middle of three samples lets one bad one pass and no second.
    expect(driver.tick(lost).outputs.ventOpen).toBe(false);
    const step = driver.tick(lost);
    expect(step.outputs.ventOpen).toBe(true);
    expect(step.outputs.pumpRatio).toBe(0);
  });

  test('a mute board is told to be safe in the tick in which it falls silent', () => {
    const driver = underPressure();
    expect(actuatorsOf(driver.tick({ ...UNDER_PRESSURE, link: 'mute' }))).toEqual(SAFE);
  });

  test('a late frame holds the job and counts for no more than two ticks of dwell', () => {
    const driver = underPressure();
    driver.tick({ ...UNDER_PRESSURE, gapS: 5 });
    const before = driver.last().state.procedure.elapsedS;
    const step = driver.tick(UNDER_PRESSURE);
    expect(step.snapshot.batch).toBe('holding');
    expect(step.state.procedure.elapsedS - before).toBeLessThanOrEqual(0.1 + 1e-9);
  });

  test('a held job is vented, waits for ever, and starts the dwell anew when told to go on', () => {
    const driver = underPressure();
    driver.pass(60, UNDER_PRESSURE);
    driver.tick({ ...UNDER_PRESSURE, pressed: ['hold'] });
    expect(driver.pass(600).snapshot.batch).toBe('held');
    driver.press('no');
    driver.press('no');
    driver.press('yes');
    // It restarts for 1 s; a pump that works on in vain would hold it again.
    const step = driver.pass(1.15);
    expect(step.snapshot).toMatchObject({ batch: 'running', phase: 'pressurise' });
  });

  test('the first cause of an abort is kept', () => {
    const driver = underPressure();
    driver.tick({ ...UNDER_PRESSURE, switches: { overPressureTripped: true } });
    const step = driver.tick({ switches: { emergencyStopPressed: true } });
    expect(step.state.why?.record).toMatch(/^Over-pressure sw/);
  });

  test('a job that an alarm is ending ends by that alarm, whoever interrupts it', () => {
    const driver = underPressure();
    driver.tick({ ...UNDER_PRESSURE, switches: { overPressureTripped: true } });
    const stop = { kind: 'stop', by: 'interrupt', why: 'Ended by SIGINT.' } as const;
    driver.tick({}, [stop]);
    expect(driver.pass(2).state).toMatchObject({ batch: 'aborted', endReason: 'alarm' });
  });

  test('an interrupt makes safe, vents and ends without waiting for a reader', () => {
    const driver = underPressure();
    const stop = { kind: 'stop', by: 'interrupt', why: 'Ended by SIGINT.' } as const;
    expect(actuatorsOf(driver.tick(UNDER_PRESSURE, [stop]))).toEqual(SAFE);
    driver.pass(1);
    expect(driver.last().state).toMatchObject({ ended: true, endReason: 'interrupted' });
  });
});

describe('the cure', () => {
  const LIT = { lit: 511 };
  const curing = (config = DEFAULT_CONFIG) => {
    const driver = createDriver(config);
    driveTo(driver, 'cure');
    const step = driver.pass(0.5, LIT);
    expect(step.outputs.lampEnabled).toBe(true);
    return driver;
  };

  test('the lamp is off in the tick in which the shield opens, and the dose is kept', () => {
    const driver = curing();
    const before = driver.pass(5, LIT).snapshot.doseJPerM2;
    const step = driver.tick({ ...LIT, switches: { shieldClosed: false } });
    expect(step.outputs.lampEnabled).toBe(false);
    expect(before).toBeGreaterThan(0);
    driver.pass(60, { switches: { shieldClosed: false } });
    expect(driver.last().snapshot.doseJPerM2).toBeGreaterThanOrEqual(before);
  });

  test('a held cure is refused to go on while the shield is open', () => {
    const driver = curing();
    driver.pass(3, { switches: { shieldClosed: false } });
    driver.press('yes', { switches: { shieldClosed: false } });
    const step = driver.press('yes', { switches: { shieldClosed: false } });
    expect(step.events).toContainEqual(
      expect.objectContaining({ kind: 'refused', why: 'Shield open still stands' }),
    );
    expect(driver.pass(3, { switches: { shieldClosed: false } }).snapshot.batch).toBe('held');
  });

  test('a gap between frames buys no more dose than two ticks of light', () => {
    const driver = curing();
    driver.pass(5, LIT);
    const before = driver.tick({ ...LIT, gapS: 5 }).snapshot.doseJPerM2;
    const after = driver.tick(LIT).snapshot.doseJPerM2;
    expect(after - before).toBeLessThan(210 * 2 * TICK_S);
  });

  test('danger after the end is still told, and does not change how the job ended', () => {
    const driver = createDriver();
    driveTo(driver, 'result');
    driver.press('yes');
    const under = { counts: { irradiance: 511 }, switches: { shieldClosed: true } };
    const step = driver.pass(4, under);
    expect(step.outputs.display[0]).toMatch(/^! Light, lamp off/);
    expect(step.state).toMatchObject({ batch: 'complete', endReason: 'completed' });
  });

  test('does not end before the least time, however bright the lamp', () => {
    const unknown = { ...DEFAULT_CONFIG.unit, lampLastKnownWPerM2: null };
    const driver = curing({ ...DEFAULT_CONFIG, unit: unknown });
    const bright = { lit: 900 };
    const step = driver.pass(200, bright);
    expect(step.snapshot.doseJPerM2).toBeGreaterThan(step.snapshot.targetJPerM2);
    expect(step.snapshot.phase).toBe('cure');
  });
});
