import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { HAND_WORK } from '../../sim/hands.ts';
import { createChance } from '../../sim/random.ts';
import { createTechnician, HABITS, readScreen, type Sight } from '../../sim/technician.ts';
import { STEP_NUMBERS } from '../../src/events.ts';
import type { Button } from '../../src/frame.ts';
import { screen } from './lock-step.ts';

const AUTOMATIC = [
  '1.1',
  '4.1',
  '4.2',
  '4.5',
  '5.1',
  '5.2',
  '5.4',
  '5.5',
  '5.6',
  '5.7',
  '6.3',
  '6.8',
];
const DARK: Sight = { bubbling: false, clear: false, tacky: null };

interface Press {
  readonly button: Button;
  readonly atS: number;
}

/** What a technician presses in front of one display for a time. */
function presses(line: string, sight: Sight = DARK, seconds = 19, seed = 1): readonly Press[] {
  return watch(createTechnician(createChance(seed, 'technician')), 0, line, sight, seconds);
}

function watch(
  technician: ReturnType<typeof createTechnician>,
  fromS: number,
  line: string,
  sight: Sight,
  seconds: number,
): readonly Press[] {
  const pressed: Press[] = [];
  for (let t = 0; t < seconds * 20; t++) {
    const timeS = fromS + t / 20;
    const button = technician.look(timeS, screen(line), sight);
    if (button !== null) pressed.push({ button, atS: timeS - fromS });
  }
  return pressed;
}

describe('the tables', () => {
  test('every step number is either somebody’s work or automatic, and none is both', () => {
    const known = [...Object.keys(HABITS), ...AUTOMATIC].sort();
    expect(known).toEqual(Object.values(STEP_NUMBERS).sort());
  });

  test('hands work only in steps that somebody confirms', () => {
    for (const step of Object.keys(HAND_WORK)) expect(HABITS[step]).toBeDefined();
  });
});

describe('reading the display', () => {
  test.each([
    ['5.2 Vacuum dwell', { kind: 'step', step: '5.2' }],
    ['5.10 Cure as it is?', { kind: 'step', step: '5.10' }],
    ['5.2 || Held', { kind: 'held', step: '5.2' }],
    ['5.10 ? Help', { kind: 'help', step: '5.10' }],
    ['! Pressure lost', { kind: 'alarm', step: '' }],
    ['-- Record closed', { kind: 'end', step: '' }],
    ['', null],
    ['Meniscus', null],
  ])('"%s"', (line, expected) => {
    expect(readScreen(screen(line))).toEqual(expected);
  });

  test('any display whatever is read or left alone, never a throw', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 20 }), (line) => {
        const seen = readScreen(screen(line));
        expect(seen === null || ['step', 'held', 'help', 'alarm', 'end'].includes(seen.kind)).toBe(
          true,
        );
      }),
    );
  });
});

describe('pressing', () => {
  test.each(AUTOMATIC)('step %s goes by itself: nothing is pressed', (step) => {
    expect(presses(`${step} Demo`, DARK, 100)).toEqual([]);
  });

  test.each(Object.keys(HABITS))('step %s is answered once, after 1 to 21 s', (step) => {
    for (let seed = 0; seed < 10; seed++) {
      const [first, ...more] = presses(`${step} Demo`, DARK, 21.2, seed);
      expect(first!.atS).toBeGreaterThan(1);
      expect(first!.atS).toBeLessThanOrEqual(21.1);
      expect(more).toEqual([]);
    }
  });

  test('bubbles and the filled break are judged by what is seen', () => {
    const answer = (line: string, sight: Partial<Sight>) =>
      presses(line, { ...DARK, ...sight })[0]!.button;
    expect(answer('5.3 Bubbles?', { bubbling: true })).toBe('yes');
    expect(answer('5.3 Bubbles?', { bubbling: false })).toBe('no');
    expect(answer('5.8 Clear?', { clear: true })).toBe('yes');
    expect(answer('5.8 Clear?', { clear: false })).toBe('no');
  });

  test('the last look is content only with what is clear and hard', () => {
    const answer = (sight: Partial<Sight>) =>
      presses('7.4 Final look', { ...DARK, ...sight })[0]!.button;
    expect(answer({ clear: true, tacky: false })).toBe('yes');
    expect(answer({ clear: false, tacky: false })).toBe('no');
    expect(answer({ clear: true, tacky: true })).toBe('no');
    expect(answer({ clear: true, tacky: null })).toBe('no');
  });

  test('extra cycles and a mark are agreed to', () => {
    const answer = (line: string, sight: Partial<Sight>) =>
      presses(line, { ...DARK, ...sight })[0]!.button;
    expect(answer('5.9 Another cycle?', {})).toBe('yes');
    expect(answer('5.10 Cure as it is?', {})).toBe('yes');
  });

  test.each(['! Alarm', '5.2 ? Help', '-- End'])('"%s" is confirmed once', (line) => {
    expect(presses(line).map(({ button }) => button)).toEqual(['yes']);
  });

  test('a screen that stays is pressed again after 20 s and not before', () => {
    const [first, second] = presses('5.8 Clear?', DARK, 40);
    expect(second!.atS - first!.atS).toBeCloseTo(20, 6);
  });

  test('the same seed takes the same time, another seed another', () => {
    const timesS = [1, 1, 2].map((seed) => presses('3.3 Clean', DARK, 22, seed)[0]!.atS);
    expect(timesS[0]).toBe(timesS[1]);
    expect(timesS[0]).not.toBe(timesS[2]);
  });

  test('held a third time in one step the technician gives up, counting each step by itself', () => {
    const technician = createTechnician(createChance(1, 'technician'));
    const answers: (Button | undefined)[] = [];
    const steps = ['5.2', '5.6', '5.2', '5.6', '5.2'];
    steps.forEach((step, i) => {
      watch(technician, 100 * i, `${step} Demo`, DARK, 5);
      const pressed = watch(technician, 100 * i + 10, `${step} || Held`, DARK, 22);
      answers.push(pressed[0]?.button);
    });
    expect(answers).toEqual(['yes', 'yes', 'yes', 'yes', 'no']);
  });
});
