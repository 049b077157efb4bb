import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { beginConversation, hearLine, type Turn } from '../../../src/intake/sheet/conversation.ts';
import { conflictsOf } from '../../../src/intake/sheet/intake-conflicts.ts';
import { intakeSheetSchema } from '../../../src/intake/sheet/intake-sheet.ts';
import { QUESTIONS, refusalOf, sheetOf } from '../../../src/intake/sheet/questions.ts';
import { FILE_OF_GAPS, WHOLE_CONVERSATION } from '../said.ts';

const CONTEXT = {
  today: '2000-01-02',
  ruleSets: [{ id: 'one', name: 'The first' }],
};

const say = (turn: Turn, ...typed: readonly string[]): Turn =>
  typed.reduce((now, line) => hearLine(now.state, line, CONTEXT), turn);
const begin = (answers = {}) => beginConversation(answers, CONTEXT);
const at = ({ state }: Turn) => state.at?.path;
const text = ({ lines }: Turn) => lines.join('\n');
/** At the question with this path, all others answered "unknown". */
const askedFor = (path: string, answers: object = {}): Turn => {
  const known = QUESTIONS.filter((one) => one.path !== path).map((one) => [
    one.path,
    one.path === 'lookedOn' ? '2000-01-01' : one.path === 'ruleSets' ? [] : 'unknown',
  ]);
  return begin({ ...Object.fromEntries(known), ...answers });
};

describe('the conversation', () => {
  test('leads from the first question to a whole sheet', () => {
    const turn = say(begin(), ...WHOLE_CONVERSATION);
    expect(turn.state.over).toBe('complete');
    const sheet = intakeSheetSchema.parse(sheetOf(turn.state.answers));
    expect(sheet).toMatchObject({
      reference: 'van-7',
      lookedOn: '2000-01-02',
      ruleSets: ['one'],
      pane: { widthMm: 1397, sweep: { leftMm: 60, rightMm: 110, topMm: 45, bottomMm: 70 } },
      damage: { type: 'bullseye', legs: 0, longestLegMm: 0, depthMm: 'unknown', impactPoint: true },
      place: { otherDamageMm: null, earlierRepairMm: null, cameraField: 'unknown' },
    });
  });

  test('asks only for what a file leaves open', () => {
    const turn = begin(FILE_OF_GAPS);
    expect(at(turn)).toBe('damage.pitMm');
    expect(at(say(turn, '2'))).toBe('place.antenna');
    expect(say(turn, '2', 'n').state.over).toBe('complete');
  });

  test('? and an empty line give help and stay', () => {
    for (const typed of ['?', '']) {
      const turn = say(askedFor('damage.pitMm'), typed);
      expect(at(turn)).toBe('damage.pitMm');
      expect(text(turn)).toContain('0 when no glass is missing');
      expect(turn.state.answers['damage.pitMm']).toBeUndefined();
    }
  });

  test('an answer out of range is refused with what is accepted', () => {
    const turn = say(askedFor('damage.pitMm'), '31');
    expect(at(turn)).toBe('damage.pitMm');
    expect(text(turn)).toContain('a number from 0 to 30 mm');
  });

  test('< goes one question back, Enter keeps what was said there', () => {
    const turn = say(begin(), 'van-7', '2000-01-01', '<');
    expect(at(turn)).toBe('lookedOn');
    expect(text(turn)).toContain('Now: 2000-01-01');
    expect(at(say(turn, '<'))).toBe('reference');
    expect(at(say(turn, ''))).toBe('ruleSets');
    expect(say(turn, '').state.answers).toMatchObject({ lookedOn: '2000-01-01' });
    expect(text(say(begin(), '<'))).toContain('first question');
  });

  test('inches are confirmed, refused, or taken as they stand only where that is possible', () => {
    const width = askedFor('pane.widthMm');
    const asked = say(width, '55 in');
    expect(text(asked)).toContain('Did you mean 1397 mm?');
    expect(say(asked, 'maybe').state.answers['pane.widthMm']).toBeUndefined();
    expect(say(asked, 'y').state.answers['pane.widthMm']).toBe(1397);
    expect(at(say(asked, 'n'))).toBe('pane.widthMm');
    const bare = say(width, '55', 'n');
    expect(text(bare)).toContain('a number from 300 to 3500 mm');
    const small = say(askedFor('damage.pitMm'), '0.2', 'n');
    expect(small.state.answers['damage.pitMm']).toBe(0.2);
  });

  test('a comma that can be read two ways is asked about, and neither reading is taken', () => {
    const asked = say(askedFor('pane.widthMm'), '1,500');
    expect(text(asked)).toBe('  Does 1,500 mean 1.5 or 1500? Type it without the comma.');
    expect(at(asked)).toBe('pane.widthMm');
    expect(asked.state.answers['pane.widthMm']).toBeUndefined();
    expect(say(asked, 'y').state.answers['pane.widthMm']).toBeUndefined();
    expect(say(asked, '1500').state.answers['pane.widthMm']).toBe(1500);
  });

  test('a decimal comma is shown back as the number that was taken', () => {
    const turn = say(askedFor('damage.pitMm'), '2,5');
    expect(turn.state.answers['damage.pitMm']).toBe(2.5);
    expect(text(turn)).toContain('2.5 mm');
    const refused = say(askedFor('damage.pitMm'), '1.500,5');
    expect(text(refused)).toContain('with a decimal point or comma');
  });

  test('two answers that cannot both be true are asked back at once, and either can be changed', () => {
    const before = { 'damage.type': 'bullseye', 'damage.diameterMm': 10 };
    const turn = say(askedFor('damage.pitMm', before), '12');
    expect(text(turn)).toContain('cannot both be true: the pit is part of the damage');
    expect(text(turn)).toContain('1  How wide is the pit, where glass is missing?  12 mm');
    expect(text(turn)).toContain('2  How wide is the whole damage?  10 mm');
    expect(turn.state.over).toBe('no');
    expect(text(say(turn, 'x'))).toContain('Which is wrong, 1 or 2?');
    const first = say(turn, '1');
    expect(at(first)).toBe('damage.pitMm');
    expect(say(first, '2').state.over).toBe('complete');
    const second = say(turn, '2');
    expect(at(second)).toBe('damage.diameterMm');
    expect(say(second, '14').state.over).toBe('complete');
    expect(text(say(second, '11'))).toContain('cannot both be true');
  });

  test('a future day is asked again alone', () => {
    const turn = say(begin(), 'van-7', '2000-01-03');
    expect(at(turn)).toBe('lookedOn');
    expect(text(turn)).toContain('future day');
    expect(at(say(turn, 'today'))).toBe('ruleSets');
  });

  test('a contradiction in a file is asked back before anything else', () => {
    const turn = begin({ 'pane.widthMm': 1400, 'place.fromLeftMm': 1500 });
    expect(text(turn)).toContain('cannot both be true: the damage would lie beyond the right edge');
    expect(at(say(turn, '1'))).toBe('place.fromLeftMm');
  });

  test('save ends it with what is answered so far', () => {
    const { state } = say(begin(), 'van-7', 'save');
    expect(state.over).toBe('saved');
    expect(state.answers).toEqual({ reference: 'van-7' });
    expect(say({ state, lines: [] }, 'van-8').state).toBe(state);
  });

  test('whatever is typed, each kept answer is one that the sheet accepts, and an end is whole', () => {
    const words = [
      '1',
      '2',
      '3',
      '5',
      '',
      '?',
      '<',
      'y',
      'n',
      'u',
      'none',
      '400',
      '22 in',
      'today',
    ];
    const line = fc.oneof(
      { weight: 8, arbitrary: fc.constantFrom(...words) },
      { weight: 2, arbitrary: fc.integer({ min: 0, max: 1500 }).map(String) },
      { weight: 1, arbitrary: fc.constant('60 110 45 70') },
      { weight: 1, arbitrary: fc.string({ maxLength: 6 }) },
    );
    const lines = fc.array(line, { maxLength: 60 });
    const starts = fc.constantFrom({}, FILE_OF_GAPS, sheetAnswers());
    let completed = 0;
    fc.assert(
      fc.property(starts, lines, (start, typed) => {
        const { state } = say(begin(start), ...typed.filter((one) => one.trim() !== 'save'));
        for (const [path, answer] of Object.entries(state.answers)) {
          expect(refusalOf(path, answer), `${path} ${JSON.stringify(answer)}`).toBeNull();
        }
        if (state.over === 'complete') {
          const sheet = intakeSheetSchema.parse(sheetOf(state.answers));
          expect(conflictsOf(sheet, CONTEXT.today)).toEqual([]);
          completed += 1;
        }
      }),
      { numRuns: 60 },
    );
    expect(completed).toBeGreaterThan(0);
  });
});

/** Nearly all answered, so that random lines reach the end. */
function sheetAnswers(): object {
  const { 'damage.type': _, ...rest } = FILE_OF_GAPS;
  return { ...rest, 'place.antenna': false };
}
