/** The kinds of evidence in words, for the terminal and the page. */
import type { Kind } from '../check.ts';

export const KIND_TITLES: Readonly<Record<Kind, string>> = {
  published: 'Published figures against code that the job uses',
  numerics: 'Numerics verified',
  tuned: 'Tuned to common practice',
  remembered: 'Remembered figures',
};

export const KIND_WORDS: Readonly<Record<Kind, string>> = {
  published: 'Somebody read the figure, at its source or on a page that quotes it.',
  numerics:
    'The same equations solved another way: by a closed form or an independent solver. It shows that they are solved rightly, and nothing about whether they are the right ones.',
  tuned:
    'Values of the model were chosen so that these hold. They guard the tuning and prove no physics.',
  remembered: 'Nobody has opened the source. They count for nothing until somebody does.',
};
