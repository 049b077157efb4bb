/**
 * The list of jobs on the unit's display, and how its buttons go through it: NO shows the next, YES
 * takes the one that is shown, and closing a job is asked once more. Nothing runs while it is shown.
 */
import type { Button, Signals } from '../core/frame.ts';
import { filled } from '../core/phrases.ts';
import type { Catalogue } from './catalogue.ts';
import { buttonLine } from './face.ts';
import { fitLine, inLetters } from './text.ts';

/** What can be done with a job, in the order in which it is offered. */
export const OFFER_KINDS = [
  'start',
  'go-on',
  'cure-only',
  'close-replaced',
  'close-other',
] as const;
export type OfferKind = (typeof OFFER_KINDS)[number];

export interface ShownOffer {
  readonly kind: OfferKind;
  /** The vehicle's plate, or the job's reference where there is none. */
  readonly name: string;
  /** It was taken, and something stood against it: the terminal says what. */
  readonly refused?: boolean;
}

export interface Choice {
  readonly at: number;
  /** Closing is asked once more. */
  readonly asks: boolean;
}

export const FIRST_CHOICE: Choice = { at: 0, asks: false };

const closes = (kind: OfferKind): boolean => kind === 'close-replaced' || kind === 'close-other';

/** `taken` is the offer that a person took with this press; null where none was. */
export function stepChoice<T extends ShownOffer>(
  choice: Choice,
  offers: readonly T[],
  pressed: Button,
): { readonly choice: Choice; readonly taken: T | null } {
  const at = Math.min(choice.at, Math.max(0, offers.length - 1));
  const offer = offers[at];
  if (offer === undefined) return { choice: FIRST_CHOICE, taken: null };
  switch (pressed) {
    case 'yes':
      return closes(offer.kind) && !choice.asks
        ? { choice: { at, asks: true }, taken: null }
        : { choice: FIRST_CHOICE, taken: offer };
    case 'no':
      return choice.asks
        ? { choice: { at, asks: false }, taken: null }
        : { choice: { at: (at + 1) % offers.length, asks: false }, taken: null };
    default:
      return { choice, taken: null };
  }
}

export function choiceSignals(
  { at, asks }: Choice,
  offers: readonly ShownOffer[],
  catalogue: Catalogue,
): Signals {
  const { jobs } = catalogue;
  const index = Math.min(at, Math.max(0, offers.length - 1));
  const offer = offers[index];
  const lines =
    offer === undefined
      ? ([jobs.title, jobs.none, jobs.add, ''] as const)
      : ([
          filled(jobs.place, { at: String(index + 1), of: String(offers.length) }),
          offer.name,
          offer.refused === true ? jobs.refused : jobs[offer.kind],
          buttonLine(catalogue, asks ? 'closeAsked' : 'choice'),
        ] as const);
  const [first, second, third, fourth] = lines;
  const own = (line: string): string => inLetters(fitLine(line), catalogue.letters);
  return {
    display: [own(first), own(second), own(third), own(fourth)],
    status: { colour: offer === undefined ? 'green' : 'blue', flashing: false },
    buzzer: 'off',
  };
}
