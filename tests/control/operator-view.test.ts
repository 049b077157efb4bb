import { describe, expect, test } from 'vitest';
import type { Button } from '../../src/core/frame.ts';
import type { PhaseId } from '../../src/core/phases.ts';
import type { Repair } from '../../src/procedure/repair/repair-state.ts';
import { pass, type Scene, tick, type Unit } from '../steered-unit.ts';
import { repairIn } from '../steering.ts';

/** On a screen that has stood long enough to be read. */
const readIn = (phase: PhaseId, scene: Scene = {}): Unit<Repair> => pass(repairIn(phase), 2, scene);
const press = (unit: Unit<Repair>, button: Button, scene: Scene = {}): Unit<Repair> =>
  pass(tick(unit, { ...scene, pressed: [button] }), 0.1, scene);
const pageOf = ({ state }: Unit<Repair>): number | null => state.page;

const STOPPED: Scene = { switches: { emergencyStopPressed: true } };

describe('the pages of an explanation', () => {
  test('are closed on a step that runs: MORE opens the first, then the next', () => {
    const unit = readIn('clean-pit');
    expect(pageOf(unit)).toBeNull();
    const first = press(unit, 'more');
    expect(pageOf(first)).toBe(0);
    expect(pageOf(press(first, 'more'))).toBe(1);
  });

  test('are closed by YES, which then answers nothing', () => {
    const open = pass(press(readIn('clean-pit'), 'more'), 2);
    const closed = press(open, 'yes');
    expect(pageOf(closed)).toBeNull();
    expect(closed.state.procedure.phase).toBe('clean-pit');
  });

  test('show their first under an alarm from the start, so that MORE turns to the second', () => {
    const unit = readIn('clean-pit', STOPPED);
    expect(unit.state.screen.subject).toBe('emergency-stop');
    expect(pageOf(unit)).toBeNull();
    expect(pageOf(press(unit, 'more', STOPPED))).toBe(1);
  });

  test('show their first under an alarm that only warns, while the job runs', () => {
    // A reading that belongs to no button is warned of, and nothing else.
    const unclear: Scene = { ladder: 'between' };
    const unit = readIn('clean-pit', unclear);
    expect(unit.state.screen.subject).toBe('button-unclear');
    expect(unit.state.batch).toBe('running');
    expect(pageOf(press(unit, 'more', unclear))).toBe(1);
  });

  test('show their first in a held job from the start', () => {
    const held = pass(press(readIn('clean-pit'), 'hold'), 3);
    expect(held.state.batch).toBe('held');
    expect(held.state.alarms).toEqual(readIn('clean-pit').state.alarms);
    expect(pageOf(held)).toBeNull();
    expect(pageOf(press(held, 'more'))).toBe(1);
  });

  test('close when the screen turns to something else', () => {
    const open = press(readIn('clean-pit'), 'more');
    expect(pageOf(open)).toBe(0);
    const turned = pass(open, 0.5, STOPPED);
    expect(turned.state.screen.subject).toBe('emergency-stop');
    expect(pageOf(turned)).toBeNull();
  });
});

describe('the time that a screen has stood', () => {
  test('begins anew when its subject changes, and not when a page is turned', () => {
    const unit = readIn('clean-pit');
    expect(unit.state.screen.shownS).toBeGreaterThan(1.5);
    expect(press(unit, 'more').state.screen.shownS).toBeGreaterThan(1.5);
    expect(tick(unit, STOPPED).state.screen.shownS).toBe(0);
  });

  test('begins anew with the question that a held job asks', () => {
    const held = pass(press(readIn('clean-pit'), 'hold'), 3);
    const asked = tick(held, { pressed: ['no'] });
    expect(asked.state.screen.subject).toMatch(/\?$/);
    expect(asked.state.screen.shownS).toBe(0);
  });
});

describe('a press that does nothing', () => {
  test('sounds the buzzer for half a second', () => {
    const refused = tick(readIn('clean-pit'), { pressed: ['no'] });
    expect(refused.state.screen.heededS).toBe(0);
    expect(tick(refused).state.shown.wrongKey).toBe(true);
    expect(pass(refused, 0.4).state.shown.wrongKey).toBe(true);
    expect(pass(refused, 0.6).state.shown.wrongKey).toBe(false);
  });

  test('is not told of one that was heeded', () => {
    const heeded = tick(readIn('clean-pit'), { pressed: ['more'] });
    expect(heeded.state.shown.wrongKey).toBe(false);
    expect(heeded.state.screen.heededS).toBeGreaterThan(1);
  });
});

describe('the panel', () => {
  test('is composed every 0.2 s for its live values, and stays as it is in between', () => {
    let unit = readIn('vacuum-dwell');
    const composedAtS = new Set<number>();
    for (let n = 0; n < 40; n++) {
      unit = tick(unit);
      composedAtS.add(unit.state.shown.atS);
    }
    const times = [...composedAtS];
    expect(times.length).toBeGreaterThan(7);
    for (const [n, atS] of times.entries()) {
      if (n === 0) continue;
      const afterS = atS - (times[n - 1] ?? 0);
      expect(afterS).toBeGreaterThan(0.199);
      // The first tick at which 0.2 s are over.
      expect(afterS).toBeLessThan(0.251);
    }
  });

  test('is composed at once when a page is turned or its subject changes', () => {
    const unit = readIn('clean-pit');
    const opened = tick(unit, { pressed: ['more'] });
    expect(opened.state.shown.atS).toBe(opened.state.timeS);
    expect(opened.state.shown.page).toBe(0);
    const stopped = tick(unit, STOPPED);
    expect(stopped.state.shown.atS).toBe(stopped.state.timeS);
    expect(stopped.state.shown.subject).toBe('emergency-stop');
  });
});
