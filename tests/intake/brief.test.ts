/** The short questionnaire, answered from whole sheets by somebody who knows every answer. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { answerAt } from '../../src/core/fields.ts';
import { assess } from '../../src/intake/rules/assess.ts';
import { verdictSoFar } from '../../src/intake/rules/next-question.ts';
import { proposedFor } from '../../src/intake/rules/places.ts';
import type { RuleSet } from '../../src/intake/rules/rule-set.ts';
import { nextBrief } from '../../src/intake/sheet/brief.ts';
import { pathsOf } from '../../src/intake/sheet/brief-questions.ts';
import { beginConversation, hearLine } from '../../src/intake/sheet/conversation.ts';
import type { IntakeSheet } from '../../src/intake/sheet/intake-sheet.ts';
import type { Question } from '../../src/intake/sheet/question.ts';
import { type Answers, sheetOf } from '../../src/intake/sheet/questions.ts';
import { builtIn } from './rules/rule-sheets.ts';
import { type Changes, sheetWith } from './sheets.ts';

const setsOf = (place: string): readonly RuleSet[] => (proposedFor(place)?.sets ?? []).map(builtIn);

function answered(question: Question, sheet: IntakeSheet): Answers {
  if (question.path === 'ruleSets') return { ruleSets: [] };
  if (question.path.startsWith('people.')) return { [question.path]: '' };
  const own = pathsOf(question).map((path) => [path, answerAt(sheet, path)] as const);
  return { [question.path]: 'said', ...Object.fromEntries(own) };
}

/** Answers what is asked until nothing is. */
function asked(sheet: IntakeSheet, sets: readonly RuleSet[]) {
  const verdictOf = (soFar: IntakeSheet) => {
    const { answer, technical, matters } = verdictSoFar(soFar, sets);
    const refused = answer === 'not-allowed-here' || technical === 'cannot';
    return { words: answer, refused, matters };
  };
  let answers: Answers = { lookedOn: sheet.lookedOn };
  const paths: string[] = [];
  for (;;) {
    const next = nextBrief(answers, verdictOf);
    if (next === null) return { verdict: assess(sheetOf(answers), sets), paths };
    paths.push(next.question.path);
    answers = { ...answers, ...answered(next.question, sheet) };
  }
}

const TEN = [
  'reference',
  'people.vehicle',
  'people.customer',
  'ruleSets',
  'damage.type',
  'damage.diameterMm',
  'brief.where',
  'damage.innerPlyTouched',
  'brief.state',
  'brief.field',
];
const STRIP: Changes = { 'place.fromLeftMm': 640 };
/** A person decides in any case, of the law and of the heater wires. */
const BETWEEN_STRIPS: Changes = { 'place.fromLeftMm': 790, 'place.heatedField': true };

describe('the short questionnaire', () => {
  test('takes a place for its rule sets, and says where none is known', () => {
    const context = { today: '2026-11-20', ruleSets: [], placeOf: proposedFor };
    const begun = beginConversation({ reference: 'job', lookedOn: '2026-11-20' }, context);
    expect(begun.state.at?.path).toBe('ruleSets');
    const germany = hearLine(begun.state, 'de', context).state.answers;
    expect(germany['ruleSets']).toEqual(proposedFor('de')?.sets);
    const italy = hearLine(begun.state, 'it', context);
    expect(italy.state.answers['ruleSets']).toEqual([]);
    expect(italy.lines[0]).toBe('  No rule set is known here for this place (it).');
  });

  test('begins with the same ten questions, those of a crack about its length', () => {
    expect(asked(sheetWith(), []).paths.slice(0, 10)).toEqual(TEN);
    const crack = { 'damage.type': 'crack', 'damage.longestLegMm': 40 };
    expect(asked(sheetWith(crack), []).paths[5]).toBe('damage.longestLegMm');
  });

  test('asks nothing more once a rule forbids it', () => {
    const inner = asked(sheetWith({ 'damage.innerPlyTouched': true }), setsOf('de'));
    expect(inner.verdict.technical.answer).toBe('cannot');
    expect(inner.paths).toEqual(TEN);
  });

  test('gives the rule that needs an answer beside its question', () => {
    const { matters } = verdictSoFar(sheetWith({ 'damage.pitMm': 'unknown' }), setsOf('de'));
    expect(matters).toEqual([
      { paths: ['damage.pitMm'], why: 'Germany: The crater may be up to 5 mm across.' },
    ]);
  });

  test('asks on for what may forbid it where a person decides in any case, and for nothing else', () => {
    const open = { 'damage.edgesReached': 'unknown', 'vehicle.beforeFirstSale': 'unknown' };
    const { matters } = verdictSoFar(sheetWith({ ...BETWEEN_STRIPS, ...open }), setsOf('de'));
    expect(matters.map(({ paths }) => paths)).toEqual([['damage.edgesReached']]);
  });

  test.each([
    ['de', {}, 'allowed'],
    ['de', STRIP, 'not-allowed-here'],
    // In the strip by the seat alone a person decides; a crack under the trim is forbidden there too.
    ['de', BETWEEN_STRIPS, 'needs-a-person'],
    ['de', { ...BETWEEN_STRIPS, 'damage.edgesReached': 1 }, 'not-allowed-here'],
    ['gb', {}, 'allowed'],
    ['gb', { 'damage.diameterMm': 41 }, 'not-allowed-here'],
    ['nl', {}, 'needs-a-person'],
    ['it', {}, 'needs-a-person'],
  ])('in %s with %j ends with %s and asks fewer than thirty', (place, changes, answer) => {
    const { verdict, paths } = asked(sheetWith(changes), setsOf(place));
    expect(verdict.answer).toBe(answer);
    expect(paths.length).toBeLessThan(30);
    expect(new Set(paths).size).toBe(paths.length);
  });

  test('reaches the verdict of the whole sheet, whatever the damage and the place', () => {
    const changes = fc.record({
      'place.fromLeftMm': fc.integer({ min: 0, max: 2400 }),
      'place.fromTopMm': fc.integer({ min: 0, max: 1200 }),
      'damage.diameterMm': fc.integer({ min: 6, max: 60 }),
      'damage.pitMm': fc.integer({ min: 1, max: 6 }),
      'damage.moisture': fc.constantFrom('dry', 'wet', 'unknown'),
      'place.cameraField': fc.constantFrom(true, false, 'unknown'),
      'vehicle.grossMassKg': fc.constantFrom(1900, 5000, 'unknown'),
    });
    const places = fc.constantFrom('de', 'gb', 'nz', 'ch', 'nl', 'us-wv', 'us-md', 'it');
    fc.assert(
      fc.property(changes, places, (some, place) => {
        const sheet = sheetWith(some);
        const whole = assess(sheet, setsOf(place));
        const { verdict } = asked(sheet, setsOf(place));
        // One that cannot be done ends the questions, whatever the law says.
        if (verdict.technical.answer === 'cannot') return whole.technical.answer === 'cannot';
        return verdict.answer === whole.answer;
      }),
      { numRuns: 60 },
    );
  });
});
