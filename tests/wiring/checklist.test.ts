import { describe, expect, test } from 'vitest';
import { BUTTONS, DISPLAY_COLUMNS } from '../../src/core/frame.ts';
import { CHECKLIST } from '../../wiring/checklist/checklist.ts';
import type { Step } from '../../wiring/checklist/step.ts';
import { TEST_PICTURE } from '../../wiring/checklist/steps-signals.ts';
import {
  chamber,
  idle,
  lampWorld,
  open,
  overPressure,
  stepOf,
  stopped,
  TICK_S,
  type World,
  walk,
} from './checklist-data.ts';

const during = (startS: number, endS: number, atS: number): boolean => atS >= startS && atS < endS;
const verdictOf = (id: string, world: World, answer: 'yes' | 'no' | null = null) =>
  walk(stepOf(id), world, answer).verdict;

describe('channels at rest', () => {
  const rows = [
    ['supply', 'supplyV', 12, 10.5],
    ['supply', 'supplyV', 12, 13.5],
    ['pressure-at-rest', 'pressurePa', 80_000, 55_000],
    ['pressure-at-rest', 'pressurePa', 100_000, 120_000],
    ['irradiance-at-rest', 'irradianceWPerM2', 50, 150],
    ['glass-at-rest', 'glassK', 293, 320],
    ['heat-sink-at-rest', 'heatSinkK', 293, 330],
  ] as const;
  test.each(rows)(
    '%s passes inside its range, fails outside and without a value',
    (id, quantity, inside, outside) => {
      expect(verdictOf(id, () => ({ [quantity]: inside }))).toBe('passed');
      expect(verdictOf(id, () => ({ [quantity]: outside }))).toBe('failed');
      expect(verdictOf(id, () => ({ [quantity]: null }))).toBe('failed');
    },
  );

  test('one sample that is not believed is enough to fail', () => {
    expect(verdictOf('supply', (atS) => (during(1, 1.05, atS) ? { supplyV: null } : {}))).toBe(
      'failed',
    );
  });
});

describe('channels moved by hand', () => {
  test('a breath must raise the pressure by 1.5 kPa and be gone again, with the vent closed', () => {
    const breath =
      (risePa: number, endS: number): World =>
      (atS) => ({
        pressurePa: 100_600 + (during(3, endS, atS) ? risePa : 0),
      });
    expect(verdictOf('pressure-moves', breath(1600, 5))).toBe('passed');
    expect(verdictOf('pressure-moves', breath(1400, 5))).toBe('failed');
    expect(verdictOf('pressure-moves', breath(1600, 500))).toBe('failed');
    expect(walk(stepOf('pressure-moves'), breath(1600, 5)).written.at(-1)).toMatchObject({
      ventOpen: false,
      pumpRatio: 0,
    });
  });

  test.each([
    ['glass-warms', 'glassK', 'heatSinkK'],
    ['heat-sink-warms', 'heatSinkK', 'glassK'],
  ] as const)('%s by 1 K, and the other thermistor does not count', (id, own, other) => {
    const warming =
      (quantity: string, riseK: number): World =>
      (atS) => ({
        [quantity]: 295 + Math.min(riseK, atS / 10),
      });
    expect(verdictOf(id, warming(own, 1.2))).toBe('passed');
    expect(verdictOf(id, warming(own, 0.8))).toBe('failed');
    expect(verdictOf(id, warming(other, 1.2))).toBe('failed');
  });

  test('the UV sensor must see light and then dark', () => {
    const light =
      (wPerM2: number, endS: number): World =>
      (atS) => ({
        irradianceWPerM2: during(2, endS, atS) ? wPerM2 : 0.5,
      });
    expect(verdictOf('irradiance-reacts', light(4, 6))).toBe('passed');
    expect(verdictOf('irradiance-reacts', light(3, 6))).toBe('failed');
    expect(verdictOf('irradiance-reacts', light(4, 500))).toBe('failed');
  });

  test.each(BUTTONS)('button %s passes by itself, and fails when another is read', (name) => {
    const pressing =
      (...pressed: (typeof BUTTONS)[number][]): World =>
      (atS) => ({
        frame: { pressed: during(2, 2.05, atS) ? pressed : [] },
      });
    const others = BUTTONS.filter((other) => other !== name);
    expect(verdictOf(`button-${name}`, pressing(name))).toBe('passed');
    expect(verdictOf(`button-${name}`, pressing(others[0]!))).toBe('failed');
    expect(verdictOf(`button-${name}`, pressing(name, others[1]!))).toBe('failed');
    expect(verdictOf(`button-${name}`, idle)).toBe('failed');
  });
});

describe('safety switches', () => {
  const rows = [
    ['emergency-stop', stopped, 'emergency-stop'],
    ['over-pressure-switch', overPressure, 'over-pressure-switch'],
  ] as const;
  /** The trip comes with the switch and stays until asked to clear with the switch back. */
  const tripping =
    (
      switches: typeof stopped,
      trip: 'emergency-stop' | 'over-pressure-switch',
      endS: number,
    ): World =>
    (atS, outputs, before) => {
      const unsafe = during(2, endS, atS);
      const was = before?.frame.trips.includes(trip) === true;
      const tripped = unsafe || (was && outputs?.clearTrips !== true);
      return { frame: { trips: tripped ? [trip] : [], ...(unsafe ? { switches } : {}) } };
    };

  test.each(rows)('%s: acts, trips, is put back and cleared', (id, switches, trip) => {
    const { verdict, written, samples } = walk(stepOf(id), tripping(switches, trip, 4));
    expect(verdict).toBe('passed');
    const asked = written.findIndex((outputs) => outputs?.clearTrips === true);
    expect(samples[asked]!.frame.timeS - 100).toBeGreaterThanOrEqual(4);
  });

  test.each(rows)(
    '%s fails when it stays, never acts, or acts without its trip',
    (id, switches, trip) => {
      expect(verdictOf(id, tripping(switches, trip, 500))).toBe('failed');
      expect(verdictOf(id, idle)).toBe('failed');
      expect(verdictOf(id, (atS) => (during(2, 4, atS) ? { frame: { switches } } : {}))).toBe(
        'failed',
      );
    },
  );

  test('the shield is seen open, then closed', () => {
    expect(
      verdictOf('shield', (atS) => (during(2, 4, atS) ? { frame: { switches: open } } : {})),
    ).toBe('passed');
    expect(verdictOf('shield', (atS) => (atS > 2 ? { frame: { switches: open } } : {}))).toBe(
      'failed',
    );
    expect(verdictOf('shield', idle)).toBe('failed');
  });
});

describe('what a person hears and sees', () => {
  const asked = CHECKLIST.filter(({ question }) => question !== null);
  test('is asked for display, status lamp, buzzer, vent, selector, pump, cut-out and cutting contacts', () => {
    expect(asked.map(({ id }) => id)).toEqual([
      'display',
      'status-lamp',
      'buzzer',
      'vent-clicks',
      'selector-clicks',
      'pump-turns',
      'lamp-cut-out',
      'cutting-contacts',
    ]);
  });

  test.each(asked)('$id passes on yes, fails on no and on silence', (step) => {
    expect(walk(step, idle, 'yes').verdict).toBe('passed');
    expect(walk(step, idle, 'no').verdict).toBe('failed');
    expect(walk(step, idle).verdict).toBe('failed');
  });

  const changes = (
    step: Step,
    pick: (outputs: NonNullable<ReturnType<Step['outputs']>>) => unknown,
  ) => {
    const seen = walk(step, idle, 'yes').written.map((outputs) => pick(outputs!));
    return seen.filter((value, index) => value !== seen[index - 1]);
  };
  test('the vent closes and opens twice and the selector switches twice, both ending at rest', () => {
    expect(changes(stepOf('vent-clicks'), ({ ventOpen }) => ventOpen)).toEqual([
      false,
      true,
      false,
      true,
    ]);
    const selector = changes(stepOf('selector-clicks'), ({ selector }) => selector);
    expect(selector).toEqual(['pressure', 'vacuum', 'pressure', 'vacuum']);
  });

  test('the pump turns at 30 % for two seconds, the buzzer sounds for one', () => {
    expect(changes(stepOf('pump-turns'), ({ pumpRatio }) => pumpRatio)).toEqual([0.3, 0]);
    expect(changes(stepOf('buzzer'), ({ buzzer }) => buzzer)).toEqual(['repeating', 'off']);
  });

  test('the status lamp shows its colours in the order asked for', () => {
    const colours = changes(stepOf('status-lamp'), ({ status }) => status.colour);
    expect(colours.slice(0, 4)).toEqual(['red', 'yellow', 'green', 'blue']);
  });

  test('the test picture fills the display', () => {
    for (const line of TEST_PICTURE) expect(line).toHaveLength(DISPLAY_COLUMNS);
  });
});

describe('air', () => {
  test('vacuum draws down passes when the pressure falls by 20 kPa, and lets the air in again', () => {
    expect(verdictOf('vacuum-draws', chamber(0))).toBe('passed');
    expect(verdictOf('vacuum-draws', idle)).toBe('failed');
    expect(verdictOf('vacuum-draws', (atS) => ({ pressurePa: 100_600 + 2000 * atS }))).toBe(
      'failed',
    );
  });

  test('a pull that does not succeed is given up after ten seconds', () => {
    const { written } = walk(stepOf('vacuum-draws'), idle);
    expect(written.at(-1)).toMatchObject({ pumpRatio: 0, ventOpen: true });
  });

  test('vacuum holds passes under 1 kPa/s of leak and fails over it', () => {
    expect(verdictOf('leak-down', chamber(900))).toBe('passed');
    expect(verdictOf('leak-down', chamber(1100))).toBe('failed');
    expect(verdictOf('leak-down', idle)).toBe('failed');
  });
});

describe('silence', () => {
  test('passes when the vacuum holds while outputs are written and is gone in the silence', () => {
    const { verdict, written } = walk(stepOf('host-silence'), chamber(0));
    expect(verdict).toBe('passed');
    expect(written.at(-1)).toBeNull();
  });

  test('fails when the board goes on holding, or the chamber leaks by itself', () => {
    expect(verdictOf('host-silence', chamber(0, false))).toBe('failed');
    const leaksOnceDrawn: World = (atS, outputs, before) =>
      chamber(outputs?.pumpRatio === 0 ? 15_000 : 0)(atS, outputs, before);
    expect(verdictOf('host-silence', leaksOnceDrawn)).toBe('failed');
    expect(verdictOf('host-silence', idle)).toBe('failed');
  });
});

describe('lamp', () => {
  const closedUntil = (endS: number) => (atS: number) => atS < endS;
  test('stays dark, shield open: passes when it is dark and trips', () => {
    expect(verdictOf('lamp-stays-dark', lampWorld(closedUntil(3), true))).toBe('passed');
  });

  test('stays dark fails at once when it lights, and when nothing trips', () => {
    const lit = walk(stepOf('lamp-stays-dark'), lampWorld(closedUntil(3), false));
    expect(lit.verdict).toBe('failed');
    expect(lit.samples.at(-1)!.frame.timeS - 100).toBeLessThan(3.7);
    expect(verdictOf('lamp-stays-dark', () => ({ frame: { switches: open } }))).toBe('failed');
    expect(verdictOf('lamp-stays-dark', idle)).toBe('failed');
  });

  test('daylight that is there when the shield opens is not taken for the lamp', () => {
    const daylight: World = (atS, outputs, before) => ({
      ...lampWorld(closedUntil(3), true)(atS, outputs, before),
      irradianceWPerM2: atS < 3 ? 0 : 30,
    });
    expect(verdictOf('lamp-stays-dark', daylight)).toBe('passed');
  });

  test('lights, shield closed: clears the trip, rises and is dark again', () => {
    const tripped: World = (atS, outputs, before) =>
      before === undefined
        ? { frame: { switches: open, trips: ['shield'] } }
        : lampWorld((at) => at > 4, true)(atS, outputs, before);
    const { verdict, written } = walk(stepOf('lamp-lights'), tripped);
    expect(verdict).toBe('passed');
    const litTicks = written.filter((outputs) => outputs?.lampEnabled === true).length;
    expect(litTicks * TICK_S).toBeCloseTo(2, 0);
  });

  test('lights fails when a tenth of the drive gives nine tenths of the light', () => {
    expect(
      verdictOf(
        'lamp-lights',
        lampWorld(() => true, true, 180),
      ),
    ).toBe('failed');
  });

  test('lights fails when it stays dark, stays lit, or the shield is opened', () => {
    expect(
      verdictOf(
        'lamp-lights',
        lampWorld(() => true, true, 0.5),
      ),
    ).toBe('failed');
    expect(verdictOf('lamp-lights', (atS) => ({ irradianceWPerM2: atS > 0.6 ? 20 : 0 }))).toBe(
      'failed',
    );
    expect(verdictOf('lamp-lights', lampWorld(closedUntil(1), true))).toBe('failed');
  });
});
