/** What holds for every step of the checklist, whatever the unit does. */
import { describe, expect, test } from 'vitest';
import { CHECKLIST } from '../../wiring/checklist.ts';
import { chamber, idle, lampWorld, walk } from './checklist-data.ts';

describe('every step', () => {
  test('has an id and a title of its own, the title fitting the display or a line of paper', () => {
    expect(new Set(CHECKLIST.map(({ id }) => id)).size).toBe(CHECKLIST.length);
    for (const { title } of CHECKLIST) expect(title.length).toBeLessThanOrEqual(32);
  });

  test('is gentle whatever happens: pump at most at 35 %, lamp at most at 10 % for 2 s, never pressing', () => {
    for (const step of CHECKLIST) {
      for (const world of [idle, chamber(0), chamber(3000), lampWorld((atS) => atS < 2, true)]) {
        const { written } = walk(step, world, 'yes');
        for (const outputs of written) {
          if (outputs === null) continue;
          expect(outputs.pumpRatio).toBeLessThanOrEqual(0.35);
          expect(outputs.lampRatio).toBeLessThanOrEqual(0.1);
          if (outputs.selector === 'pressure') expect(outputs.pumpRatio).toBe(0);
          if (outputs.lampEnabled) expect(step.caution).toContain('UV');
          if (outputs.clearTrips)
            expect(outputs).toMatchObject({ pumpRatio: 0, ventOpen: true, lampEnabled: false });
        }
        const lit = written.filter((outputs) => outputs?.lampEnabled === true).length;
        expect(lit * 0.05).toBeLessThanOrEqual(2.01);
      }
    }
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
      const mute = walk(step, () => ({ frame: { link: 'mute' } }), 'yes');
      expect(mute).toMatchObject({ verdict: 'failed', why: 'Nothing comes from the board.' });
      const tripped = walk(step, () => ({ frame: { trips: ['watchdog'] } }), 'yes');
      expect(tripped).toMatchObject({ verdict: 'failed', why: 'The board has tripped: watchdog.' });
    }
  });
});
