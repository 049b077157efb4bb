import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { HAND_WORK } from '../../../sim/people/hands.ts';
import { readScreen } from '../../../sim/people/screen-reading.ts';
import { createTechnician, HABITS, type Sight } from '../../../sim/people/technician.ts';
import { createChance } from '../../../sim/random.ts';
import type { Button } from '../../../src/core/frame.ts';
import { PHASE_IDS, type PhaseId, STEP_NUMBERS } from '../../../src/core/phases.ts';
import { screen } from '../board/lock-step.ts';

const AUTOMATIC: readonly PhaseId[] = [
  'self-test',
  'glass-gate',
  'seal-pull',
  'seal-watch',
  'long-pull',
  'seal-open',
  'seal-press',
  'press-watch',
  'press-off',
  'evacuate',
  'vacuum-dwell',
  'release',
  'pressurise',
  'pressure-dwell',
  'vent',
  'cure-fill',
  'cure',
];
const WORKED = PHASE_IDS.filter((phase) => !AUTOMATIC.includes(phase));
/** The first line of a phase's screen. */
const shown = (phase: PhaseId, after = ' Demo'): string => `${STEP_NUMBERS[phase]}${after}`;
const DARK: Sight = {
  bubbling: false,
  clear: false,
  tacky: null,
  level: true,
  resinLeft: true,
};

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
  test('nobody has anything to press in the automatic phases, and somebody in all others', () => {
    const idle = PHASE_IDS.filter((phase) => HABITS[phase] === null);
    expect(idle.toSorted()).toEqual(AUTOMATIC.toSorted());
  });

  test('hands work only in phases that somebody confirms', () => {
    for (const phase of Object.keys(HAND_WORK)) expect(WORKED).toContain(phase);
  });
});

describe('reading the display', () => {
  test.each([
    ['5.2 Vacuum dwell', { kind: 'step', step: 'vacuum-dwell' }],
    ['5.8f Cure as it is?', { kind: 'step', step: 'accept-mark' }],
    ['5.2 || Held', { kind: 'held', step: 'vacuum-dwell' }],
    ['5.8f ? Help', { kind: 'help', step: 'accept-mark' }],
    ['5.2 ||? End job', { kind: 'end-asked', step: 'vacuum-dwell' }],
    ['! Pressure lost', { kind: 'alarm', step: null }],
    ['-- Record closed', { kind: 'end', step: null }],
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
  test.each(AUTOMATIC)('%s goes by itself: nothing is pressed', (phase) => {
    expect(presses(shown(phase), DARK, 100)).toEqual([]);
  });

  test.each(WORKED)('%s is answered once, after 1 to 21 s', (phase) => {
    for (let seed = 0; seed < 10; seed++) {
      const [first, ...more] = presses(shown(phase), DARK, 21.2, seed);
      expect(first!.atS).toBeGreaterThan(1);
      expect(first!.atS).toBeLessThanOrEqual(21.1);
      expect(more).toEqual([]);
    }
  });

  test('bubbles and the filled break are judged by what is seen', () => {
    const answer = (line: string, sight: Partial<Sight>) =>
      presses(line, { ...DARK, ...sight })[0]!.button;
    expect(answer(shown('ask-bubbles'), { bubbling: true })).toBe('yes');
    expect(answer(shown('ask-bubbles'), { bubbling: false })).toBe('no');
    expect(answer(shown('ask-clear'), { clear: true })).toBe('yes');
    expect(answer(shown('ask-clear'), { clear: false })).toBe('no');
  });

  test('the last look is content only with what is clear, level and hard', () => {
    const answer = (sight: Partial<Sight>) =>
      presses(shown('final-look'), { ...DARK, ...sight })[0]!.button;
    expect(answer({ clear: true, tacky: false })).toBe('yes');
    expect(answer({ clear: false, tacky: false })).toBe('no');
    expect(answer({ clear: true, tacky: true })).toBe('no');
    expect(answer({ clear: true, tacky: null })).toBe('no');
    expect(answer({ clear: true, tacky: false, level: false })).toBe('no');
  });

  test('extra cycles and a mark are agreed to', () => {
    const answer = (line: string, sight: Partial<Sight>) =>
      presses(line, { ...DARK, ...sight })[0]!.button;
    expect(answer(shown('offer-cycle'), {})).toBe('yes');
    expect(answer(shown('offer-remedy'), {})).toBe('yes');
    expect(answer(shown('accept-mark'), {})).toBe('yes');
  });

  test.each(['! Alarm', '5.2 ? Help', '-- End'])('"%s" is confirmed once', (line) => {
    expect(presses(line).map(({ button }) => button)).toEqual(['yes']);
  });

  test('that asks why HOLD was pressed is answered NO: no scripted person sees a leg grow', () => {
    const asked = presses(shown('evacuate', ' |? Why HOLD?')).map(({ button }) => button);
    expect(asked).toEqual(['no']);
  });

  test('a screen that stays is pressed again after 20 s and not before', () => {
    const [first, second] = presses(shown('ask-clear'), DARK, 40);
    expect(second!.atS - first!.atS).toBeCloseTo(20, 6);
  });

  test('the same seed takes the same time, another seed another', () => {
    const timesS = [1, 1, 2].map((seed) => presses(shown('clean-pit'), DARK, 22, seed)[0]!.atS);
    expect(timesS[0]).toBe(timesS[1]);
    expect(timesS[0]).not.toBe(timesS[2]);
  });

  test('held a third time in one step the technician gives up, counting each step by itself', () => {
    const technician = createTechnician(createChance(1, 'technician'));
    const answers: (Button | undefined)[] = [];
    const dwells = ['vacuum-dwell', 'pressure-dwell'] as const;
    [0, 1, 0, 1, 0].forEach((which, i) => {
      const phase = dwells[which]!;
      watch(technician, 100 * i, shown(phase), DARK, 5);
      const pressed = watch(technician, 100 * i + 10, shown(phase, ' || Held'), DARK, 22);
      answers.push(pressed[0]?.button);
    });
    expect(answers).toEqual(['yes', 'yes', 'yes', 'yes', 'no']);
  });
});
