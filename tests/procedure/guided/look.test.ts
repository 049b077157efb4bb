/** No guided procedure begins on a sensor that it needs and cannot believe. */
import { describe, expect, test } from 'vitest';
import type { Channel } from '../../../src/core/frame.ts';
import { createGuidedDriver } from './driver.ts';

/** What each must be able to measure, by what is compared in it and what its alarms count from. */
const NEEDS = {
  pressure: ['pressure'],
  uv: ['pressure', 'irradiance'],
  temperature: ['glassTemperature'],
  health: ['pressure'],
} as const satisfies Record<string, readonly Channel[]>;
const SENSORS = ['pressure', 'irradiance', 'glassTemperature'] as const;

type Name = keyof typeof NEEDS;
const CASES = (Object.keys(NEEDS) as Name[]).flatMap((name) =>
  SENSORS.map((sensor) => {
    const needed: readonly Channel[] = NEEDS[name];
    return { name, sensor, needed: needed.includes(sensor) };
  }),
);

describe.each(CASES)('$name without $sensor', ({ name, sensor, needed }) => {
  const broken = { counts: { [sensor]: 0 } };

  test(needed ? 'is not begun, and the self-test holds it' : 'is begun', () => {
    const driver = createGuidedDriver(name);
    const look = `${name}-look`;
    expect(driver.tick(broken).snapshot.step).toBe(look);
    const after = driver.pass(2, broken);
    expect(after.snapshot.step === look).toBe(needed);
    if (!needed) return;
    const late = driver.pass(20, broken);
    expect(late.snapshot).toMatchObject({ step: look, batch: 'held' });
    expect(late.outputs.display[0]).toMatch(/^! Self-test/);
  });
});

test.each(Object.keys(NEEDS) as Name[])('%s is not begun while the board has tripped', (name) => {
  const driver = createGuidedDriver(name);
  const look = `${name}-look`;
  expect(driver.pass(3, { trips: ['watchdog'] }).snapshot.step).toBe(look);
  expect(driver.pass(3).snapshot.step).not.toBe(look);
});
