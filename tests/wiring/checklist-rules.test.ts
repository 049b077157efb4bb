/** What holds for every step of the checklist, whatever the unit does. */
import { describe, expect, test } from 'vitest';
import { SAFE } from '../../src/core/frame.ts';
import { CHECKLIST } from '../../wiring/checklist/checklist.ts';
import {
  chamber,
  idle,
  lampWorld,
  open,
  stopped,
  TICK_S,
  type World,
  walk,
} from './checklist-data.ts';

describe('every step', () => {
  test('has an id and a title of its own, the title fitting the display or a line of paper', () => {
    expect(new Set(CHECKLIST.map(({ id }) => id)).size).toBe(CHECKLIST.length);
    for (const { title } of CHECKLIST) expect(title.length).toBeLessThanOrEqual(32);
  });

  const troubled: World = (atS) =>
    atS < 1 || atS > 3
      ? {}
      : { frame: { switches: { ...stopped, ...open, overPressureTripped: true } } };
  const worlds = [idle, troubled, chamber(0), lampWorld((atS) => atS < 2, true)];
  const walks = CHECKLIST.flatMap((step) =>
    worlds.map((world) => ({ step, written: walk(step, world, 'yes').written })),
  );
  const written = walks.flatMap((one) => one.written.flatMap((outputs) => outputs ?? []));

  test('is gentle whatever happens: pump at most at 35 %, lamp at most at 10 %, never pressing', () => {
    const rough = written.filter(
      ({ pumpRatio, lampRatio, selector }) =>
        pumpRatio > 0.35 || lampRatio > 0.1 || (selector === 'pressure' && pumpRatio > 0),
    );
    expect(rough).toEqual([]);
  });

  test('lights the lamp for two seconds at most, and warns of UV before', () => {
    let lamps = 0;
    for (const one of walks) {
      const lit = one.written.filter((outputs) => outputs?.lampEnabled);
      expect(lit.length * TICK_S).toBeLessThanOrEqual(2.01);
      if (lit.length === 0) continue;
      lamps += 1;
      expect(one.step.caution).toContain('UV');
    }
    expect(lamps).toBeGreaterThan(0);
  });

  test('asks for trips to be cleared only with safe outputs', () => {
    const asking = written.filter(({ clearTrips }) => clearTrips);
    expect(asking.length).toBeGreaterThan(0);
    for (const outputs of asking) expect(outputs).toMatchObject(SAFE);
  });

  test('comes after the safety switches were proved when it drives pump, vent or lamp', () => {
    const at = (id: string) => CHECKLIST.findIndex((step) => step.id === id);
    const proved = Math.max(at('emergency-stop'), at('shield'), at('over-pressure-switch'));
    for (const id of ['vent-clicks', 'pump-turns', 'vacuum-draws', 'lamp-lights']) {
      expect(at(id)).toBeGreaterThan(proved);
    }
  });

  test('ends with a reason when the board is mute or trips by itself', () => {
    for (const step of CHECKLIST) {
      const mute = walk(step, () => ({ frame: { link: 'mute', sampledAtS: -1 } }), 'yes');
      expect(mute).toMatchObject({ verdict: 'failed', why: 'The board sends nothing.' });
      const tripped = walk(step, () => ({ frame: { trips: ['watchdog'] } }), 'yes');
      expect(tripped).toMatchObject({ verdict: 'failed', why: 'The board has tripped: watchdog.' });
    }
  });
});
