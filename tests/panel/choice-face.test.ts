import { describe, expect, test } from 'vitest';
import {
  type Choice,
  choiceSignals,
  FIRST_CHOICE,
  OFFER_KINDS,
  type ShownOffer,
  stepChoice,
} from '../../src/panel/choice-face.ts';
import { ENGLISH, SPANISH } from './catalogues.ts';

const OFFERS: readonly ShownOffer[] = [
  { kind: 'go-on', name: 'AB 12 CDE' },
  { kind: 'close-replaced', name: 'AB 12 CDE' },
  { kind: 'start', name: 'job-8' },
];

const pressing = (from: Choice, ...buttons: readonly ('yes' | 'no' | 'more' | 'hold')[]) =>
  buttons.reduce<ReturnType<typeof stepChoice>>(
    ({ choice }, button) => stepChoice(choice, OFFERS, button),
    { choice: from, taken: null },
  );
const shows = (choice: Choice, offers = OFFERS, catalogue = ENGLISH) =>
  choiceSignals(choice, offers, catalogue).display.map((line) => line.trimEnd());

describe('the list of jobs on the display', () => {
  test('shows one job at a time, with what would be done and what the buttons do', () => {
    expect(shows(FIRST_CHOICE)).toEqual([
      'Choose 1/3',
      'AB 12 CDE',
      'Go on with it',
      'YES=take NO=next',
    ]);
  });

  test('goes on with NO, and from the last to the first again', () => {
    expect(pressing(FIRST_CHOICE, 'no', 'no').choice.at).toBe(2);
    expect(pressing(FIRST_CHOICE, 'no', 'no', 'no').choice.at).toBe(0);
  });

  test('takes with YES what is shown, and nothing with the other buttons', () => {
    expect(pressing(FIRST_CHOICE, 'yes').taken).toBe(OFFERS[0]);
    expect(pressing(FIRST_CHOICE, 'more', 'hold')).toEqual({ choice: FIRST_CHOICE, taken: null });
  });

  test('asks once more before it closes a job', () => {
    const asked = pressing(FIRST_CHOICE, 'no', 'yes');
    expect([asked.taken, shows(asked.choice)[3]]).toEqual([null, 'YES=close NO=back']);
    expect(pressing(asked.choice, 'no')).toEqual({ choice: { at: 1, asks: false }, taken: null });
    expect(pressing(asked.choice, 'yes').taken).toBe(OFFERS[1]);
  });

  test('says so where nothing waits, and where a job was not begun', () => {
    expect(shows(FIRST_CHOICE, [], SPANISH).slice(0, 2)).toEqual(['Trabajos', 'No espera ninguno']);
    expect(stepChoice(FIRST_CHOICE, [], 'yes').taken).toBeNull();
    const [offer] = OFFERS;
    if (offer === undefined) return;
    expect(shows(FIRST_CHOICE, [{ ...offer, refused: true }])[2]).toBe('Not begun: see desk');
  });

  test.each([ENGLISH, SPANISH])('is four lines of 20 characters for every offer', (catalogue) => {
    for (const kind of OFFER_KINDS) {
      for (const asks of [true, false]) {
        const offers = [{ kind, name: 'Å plate that is longer than the line' }];
        const { display } = choiceSignals({ at: 0, asks }, offers, catalogue);
        for (const line of display) expect(line).toMatch(/^[\x20-\x5b\x5d-\x7dáéíóúñ¿Í]{20}$/);
      }
    }
  });
});
