/**
 * The short questionnaire: ten questions, of which some answer several of the sheet at once. What
 * else is asked afterwards is decided by `brief.ts`. Plate and customer belong to the job and not
 * to the sheet, which names nobody.
 */
import type { IntakeSheet } from './intake-sheet.ts';
import type { Question } from './question.ts';
import { QUESTIONS } from './questions.ts';

/** Of the job, kept apart from the sheet. */
export const PEOPLE_PATHS = ['people.vehicle', 'people.customer'] as const;

const PEOPLE: readonly Question[] = [
  {
    path: 'people.vehicle',
    ask: 'What is the vehicle’s plate?',
    help: 'For the job sheet and the unit’s display; it is not written into the intake sheet. Enter for none.',
    answer: { kind: 'text', mayBeEmpty: true },
  },
  {
    path: 'people.customer',
    ask: 'Who is the customer?',
    help: 'For the job sheet and the certificate; it is not written into the intake sheet. Enter for none.',
    answer: { kind: 'text', mayBeEmpty: true },
  },
];

const WHERE: Question = {
  path: 'brief.where',
  ask: 'How far is the damage from the left and from the upper edge of the pane?',
  help: 'Two distances in mm as the driver sees the pane, to the pit; for a crack, to its middle.',
  answer: { kind: 'distances', names: ['left', 'top'] },
  sets: (answer) => {
    const [left, top] = answer === 'unknown' ? [answer, answer] : (answer as readonly number[]);
    return { 'place.fromLeftMm': left, 'place.fromTopMm': top };
  },
};

const STATES: Readonly<Record<string, readonly [string, string]>> = {
  'dry-and-clean': ['dry', 'none'],
  wet: ['wet', 'none'],
  dirty: ['dry', 'can-be-removed'],
  'wet-and-dirty': ['wet', 'can-be-removed'],
  'dirt-stays': ['dry', 'stays'],
};

const STATE: Question = {
  path: 'brief.state',
  ask: 'Is the break wet or dirty?',
  help: 'Look with a lens. Water and dirt keep resin out; clean and dry it first, then look again.',
  answer: {
    kind: 'choice',
    options: [
      { value: 'dry-and-clean', words: 'dry and clean' },
      { value: 'wet', words: 'damp or wet' },
      { value: 'dirty', words: 'dirty, and the dirt can be removed' },
      { value: 'wet-and-dirty', words: 'wet and dirty' },
      { value: 'dirt-stays', words: 'dirty, and the dirt cannot be removed' },
    ],
  },
  sets: (answer) => {
    const [moisture, contamination] = STATES[String(answer)] ?? ['unknown', 'unknown'];
    return { 'damage.moisture': moisture, 'damage.contamination': contamination };
  },
};

const FIELDS = ['cameraField', 'heatedField', 'headUpDisplay', 'antenna'] as const;

/** Of a pane with one such field the others are asked where they matter. */
const FIELD: Question = {
  path: 'brief.field',
  ask: 'Does it lie where a camera or sensor looks through, among heater wires, in a display or on an antenna?',
  help: 'The vehicle maker’s map shows these fields, and takes precedence. Without the map, answer u.',
  answer: {
    kind: 'choice',
    options: [
      { value: 'none', words: 'in none of them' },
      { value: 'cameraField', words: 'camera or sensor' },
      { value: 'heatedField', words: 'heater wires or a heated field' },
      { value: 'headUpDisplay', words: 'head-up display' },
      { value: 'antenna', words: 'antenna' },
    ],
  },
  sets: (answer) => {
    if (answer === 'none' || answer === 'unknown') {
      const all = answer === 'none' ? false : 'unknown';
      return Object.fromEntries(FIELDS.map((field) => [`place.${field}`, all]));
    }
    return { [`place.${answer}`]: true };
  },
};

export const questionAt = (path: string): Question | undefined =>
  QUESTIONS.find((question) => question.path === path);

const sheetQuestions = (...paths: readonly string[]): readonly Question[] =>
  paths.flatMap((path) => questionAt(path) ?? []);

const EXTENT: Readonly<Partial<Record<IntakeSheet['damage']['type'], string>>> = {
  crack: 'damage.longestLegMm',
  'surface-pit': 'damage.pitMm',
};

/** In the order in which they are asked; the extent is measured as the kind of damage has it. */
export const briefQuestions = ({ damage }: IntakeSheet): readonly Question[] => [
  ...sheetQuestions('reference'),
  ...PEOPLE,
  ...sheetQuestions('ruleSets', 'damage.type', EXTENT[damage.type] ?? 'damage.diameterMm'),
  WHERE,
  ...sheetQuestions('damage.innerPlyTouched'),
  STATE,
  FIELD,
];

/** The answers of the sheet that a question stands for. */
export const pathsOf = (question: Question): readonly string[] =>
  question.sets === undefined
    ? [question.path]
    : question.path === FIELD.path
      ? FIELDS.map((field) => `place.${field}`)
      : Object.keys(question.sets('unknown'));
