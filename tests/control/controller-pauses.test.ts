/** A cure keeps its dose through a pause, for both fill and pit. */

import { describe, expect, test } from 'vitest';
import type { Event } from '../../src/core/events.ts';
import type { PhaseId } from '../../src/core/phases.ts';
import { type Driver, driveTo, type FrameChange } from '../drive.ts';
import { APART, dosesOf, LIT, recorded, stated, TICK_J_PER_M2 } from './apart-driver.ts';

/** A last piece of light lasts a second at least, so a cure may end with so much more than it needs. */
const LAST_PIECE_J_PER_M2 = 201 + TICK_J_PER_M2;
const DARK: FrameChange = { counts: { irradiance: 102 } };

/** Presses YES until the job runs again. */
function goOn(driver: Driver): void {
  for (let look = 0; look < 6 && driver.last().snapshot.batch !== 'running'; look++) {
    driver.press('yes', DARK);
    driver.pass(1.5, DARK);
  }
  expect(driver.last().snapshot.batch).toBe('running');
}

function finish(driver: Driver, phase: PhaseId): void {
  for (let tick = 0; tick < 4000 && driver.last().snapshot.phase === phase; tick++) {
    driver.tick(driver.last().outputs.lampEnabled ? LIT : DARK);
  }
}

type Pause = (driver: Driver) => void;
/** The lamp goes out by its command, and the reading falls to dark with it. */
const PAUSES: readonly (readonly [string, Pause])[] = [
  [
    'for an open shield',
    (driver) => {
      driver.pass(20, { ...DARK, switches: { shieldClosed: false } });
    },
  ],
  [
    'because a person holds it',
    (driver) => {
      driver.press('hold', LIT);
      driver.pass(20, DARK);
      driver.press('no', DARK);
      driver.press('no', DARK);
    },
  ],
];
/** It goes out by itself. */
const noLight: Pause = (driver) => {
  driver.pass(20, DARK);
};

const shownBy = (events: readonly Event[], portion: 'fill' | 'pit') => {
  const k = stated(events, 'doseCoverageFactor');
  const margin = k * stated(events, 'doseUncertaintyJPerM2', portion);
  return {
    counted: stated(events, 'doseJPerM2', portion),
    margin,
    shown: stated(events, 'shownDoseJPerM2', portion),
  };
};

describe.each([
  ['cure-fill', 'fill', 'pit'],
  ['cure', 'pit', 'fill'],
] as const)('a pause of %s', (phase, portion, other) => {
  const straight = recorded(APART);
  driveTo(straight.driver, phase);
  straight.driver.pass(5.5, LIT);
  finish(straight.driver, phase);
  const unpaused = shownBy(straight.events, portion);

  test.each(PAUSES)(
    '%s keeps both counts and ends at the same dose, within a second of light',
    (_, pause) => {
      const { driver, events } = recorded(APART);
      driveTo(driver, phase);
      driver.pass(5.5, LIT);
      const otherBefore = driver.last().state.scene.doses[other].doseJPerM2;
      pause(driver);
      expect(driver.last().snapshot.batch).not.toBe('running');
      expect(driver.last().outputs.lampEnabled).toBe(false);
      const kept = dosesOf(driver.last());
      expect(Math.max(...kept)).toBeGreaterThan(5 * 190);
      driver.pass(30, DARK);
      expect(dosesOf(driver.last())).toEqual(kept);

      goOn(driver);
      expect(driver.last().snapshot.phase).toBe(phase);
      finish(driver, phase);
      const paused = shownBy(events, portion);
      // Wider by the edges of the second stretch of light.
      expect(paused.margin).toBeGreaterThan(unpaused.margin);
      expect(Math.abs(paused.shown - unpaused.shown)).toBeLessThan(LAST_PIECE_J_PER_M2);
      expect(driver.last().state.scene.doses[other].doseJPerM2).toBe(otherBefore);
    },
  );

  test('for a lamp that gives no light ends at the same dose too, and the light before does not count', () => {
    const { driver, events } = recorded(APART);
    driveTo(driver, phase);
    driver.pass(5.5, LIT);
    const before = driver.last().state.scene.doses[portion].doseJPerM2;
    noLight(driver);
    expect(driver.last().snapshot.batch).not.toBe('running');
    goOn(driver);
    finish(driver, phase);
    expect(events.find(({ kind }) => kind === 'gap-failed')).toMatchObject({ portion });
    const { counted, shown } = shownBy(events, portion);
    expect(Math.abs(shown - unpaused.shown)).toBeLessThan(LAST_PIECE_J_PER_M2);
    expect(counted - before).toBeGreaterThan(unpaused.counted - LAST_PIECE_J_PER_M2);
  });
});
