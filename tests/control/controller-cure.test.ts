import { describe, expect, test } from 'vitest';
import type { Event } from '../../src/core/events.ts';
import { createDriver, driveTo, TICK_S } from '../drive.ts';

/** 200 W/m2 by the default sensor; the driver lets the count jitter by one. */
const LIT = { lit: 511 };
const HIGHEST_W_PER_M2 = 201;

describe('the end of a cure', () => {
  test('comes when the dose is shown to be met: over its target, and the journal says by how much', () => {
    const driver = createDriver();
    driveTo(driver, 'cure');
    const events: Event[] = [];
    while (driver.last().snapshot.phase === 'cure') events.push(...driver.tick(LIT).events);
    const stated = (name: string): number =>
      events.flatMap((e) => (e.kind === 'measured' && e.name === name ? [e.value] : []))[0] ??
      Number.NaN;
    const { targetJPerM2 } = driver.last().snapshot;
    const [dose, k] = [stated('doseJPerM2'), stated('doseCoverageFactor')];
    const shown = dose - k * stated('doseUncertaintyJPerM2');
    expect(dose / targetJPerM2).toBeGreaterThan(1.04);
    expect(shown).toBeGreaterThanOrEqual(targetJPerM2);
    // One tick of light earlier it was not.
    expect(shown - HIGHEST_W_PER_M2 * TICK_S).toBeLessThan(targetJPerM2);
  });
});
