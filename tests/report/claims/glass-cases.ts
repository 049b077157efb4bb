/** What the glass says of its own sensor and of the light, and what the claims then say. */
import { GOOD_JOB, measured } from '../job-story.ts';
import type { Case } from './beside-cases.ts';
import { isMeasured } from './story-changes.ts';

export const GLASS_CASES: Readonly<Record<string, Case>> = {
  'a second cure that did not warm the glass': {
    claim: 'temperature',
    state: 'not shown',
    events: GOOD_JOB.flatMap((event) =>
      isMeasured(event, 'glassWarmedK') ? [event, { ...event, value: 0.1 }] : [event],
    ),
    headline: 'the temperature rests on too little that was seen',
    line: 'the lamp warmed the glass by 0.1 K (usual 0.0 K): too little to show that its sensor sits on it and moves',
  },
  'a glass sensor whose count stood for all of the light': {
    claim: 'temperature',
    state: 'not shown',
    telling: { glassRests: true },
    headline: 'a temperature sensor cannot be relied on',
    line: 'the glass sensor’s count stood for 35 s in the light: it shows nothing of that time',
  },
  'light under which the glass did not warm': {
    claim: 'dose',
    state: 'not shown',
    events: GOOD_JOB.flatMap((event) =>
      isMeasured(event, 'glassWarmedK')
        ? [measured(150, 'glassWarmedK', 0.79), measured(150, 'glassUsuallyWarmedK', 2.4)]
        : [event],
    ),
    headline: 'the glass did not warm as it does under the lamp',
    line: 'the light warmed the glass by 0.8 K, 2.4 K are usual: the lamp may have stood beside it',
  },
};
