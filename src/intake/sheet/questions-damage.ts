/**
 * Questions about the damage itself. Features that a type of damage does not have are not asked: a
 * ring has no legs, and a surface pit is as wide as its pit.
 */
import type { IntakeSheet } from './intake-sheet.ts';
import type { Question } from './question.ts';

const MM = { kind: 'number', unit: 'mm' } as const;
type DamageType = IntakeSheet['damage']['type'];

/** Not asked for these types; `follows` is the answer that they imply. */
const notFor =
  (types: readonly DamageType[], follows: unknown) =>
  ({ damage }: IntakeSheet) =>
    types.includes(damage.type) ? { follows } : null;

const WITHOUT_CRACKS = ['bullseye', 'half-moon', 'surface-pit'] as const;

const SHAPE: readonly Question[] = [
  {
    path: 'damage.type',
    ask: 'What does the damage look like?',
    help: 'Look from inside and outside, with light from the side. When two fit, take the larger.',
    answer: {
      kind: 'choice',
      options: [
        { value: 'bullseye', words: 'bullseye: a full ring about the pit' },
        { value: 'half-moon', words: 'half moon: a part of a ring' },
        { value: 'star-break', words: 'star: short legs that run out from the pit' },
        { value: 'combination-break', words: 'combination: a ring or half moon with legs' },
        { value: 'crack', words: 'crack: one line, or a few long ones' },
        { value: 'surface-pit', words: 'surface pit: only a chip of glass is missing' },
      ],
    },
  },
  {
    path: 'damage.impactPoint',
    ask: 'Is there a point of impact?',
    help: 'Feel with a fingertip. A crack without one comes from stress or twist in the frame.',
    answer: { kind: 'yes-no' },
    skip: ({ damage }) =>
      damage.type === 'crack' || damage.type === 'unknown' ? null : { follows: true },
  },
  {
    path: 'damage.pitMm',
    ask: 'How wide is the pit, where glass is missing?',
    help: 'In mm, at its widest; 0 when no glass is missing.',
    answer: MM,
  },
  {
    path: 'damage.bodyMm',
    ask: 'How wide is the body, without its legs?',
    help: 'In mm: the ring or half moon alone.',
    answer: MM,
    skip: ({ damage }) => (damage.type === 'combination-break' ? null : { follows: 'unknown' }),
  },
  {
    path: 'damage.legs',
    ask: 'How many legs run out from it?',
    help: 'Count each line that starts at the pit. A crack without a pit has 0.',
    answer: { kind: 'number', unit: 'legs' },
    skip: notFor(WITHOUT_CRACKS, 0),
  },
  {
    path: 'damage.longestLegMm',
    ask: 'How long is the longest leg, or the crack?',
    help: 'In mm. A leg from the pit to its tip; a crack along its course from end to end.',
    answer: MM,
    skip: notFor(WITHOUT_CRACKS, 0),
  },
  {
    path: 'damage.diameterMm',
    ask: 'How wide is the whole damage?',
    help: 'In mm: across the ring, or from tip to tip of the two longest legs, not the pit alone.',
    answer: MM,
    skip: ({ damage }) => {
      if (damage.type === 'surface-pit') return { follows: damage.pitMm };
      // A crack is characterised by its length.
      return damage.type === 'crack' ? { follows: 'unknown' } : null;
    },
  },
  {
    path: 'damage.depthMm',
    ask: 'How deep does it go?',
    help: 'In mm from the outer face. It is hard to measure: u is a good answer.',
    answer: MM,
  },
  {
    path: 'damage.edgesReached',
    ask: 'How many edges of the pane does it run to?',
    help: 'Also count an edge when the damage runs under its seal or trim; 0 when it reaches none.',
    answer: { kind: 'number', unit: 'edges' },
  },
  {
    path: 'damage.cracksMeet',
    ask: 'Do two cracks meet or cross?',
    help: 'Ignore the pit, where all legs meet.',
    answer: { kind: 'yes-no' },
    skip: notFor(WITHOUT_CRACKS, false),
  },
];

const STATE: readonly Question[] = [
  {
    path: 'damage.ageDays',
    ask: 'How old is the damage?',
    help: 'In days, 0 for today. Old damage holds more dirt and water.',
    answer: { kind: 'number', unit: 'days' },
  },
  {
    path: 'damage.moisture',
    ask: 'Is there water in it?',
    help: 'Wet: water visibly moves when pressed from outside. Damp: rain or dew since it broke.',
    answer: {
      kind: 'choice',
      options: [
        { value: 'dry', words: 'dry' },
        { value: 'damp', words: 'damp' },
        { value: 'wet', words: 'wet' },
      ],
    },
  },
  {
    path: 'damage.contamination',
    ask: 'Is there dirt in it?',
    help: 'Dirt, wax or cleaner that has crept between the faces of the crack.',
    answer: {
      kind: 'choice',
      options: [
        { value: 'none', words: 'none' },
        { value: 'can-be-removed', words: 'some, and it can be removed' },
        { value: 'stays', words: 'some, and it stays' },
      ],
    },
  },
  {
    path: 'damage.repairedBefore',
    ask: 'Does this damage already contain resin?',
    help: 'From an earlier repair of this very break. Cured resin cannot be filled again.',
    answer: { kind: 'yes-no' },
  },
  {
    path: 'damage.interlayerTouched',
    ask: 'Is the film between the two panes of glass damaged?',
    help: 'Milky, torn, bubbled or detached at or around the damage.',
    answer: { kind: 'yes-no' },
  },
  {
    path: 'damage.innerPlyTouched',
    ask: 'Is the inner pane of glass damaged?',
    help: 'Feel from inside with a fingertip: anything rough or open means yes.',
    answer: { kind: 'yes-no' },
  },
];

export const DAMAGE_QUESTIONS: readonly Question[] = [...SHAPE, ...STATE];
