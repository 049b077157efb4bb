/**
 * The order of work as the requirement says it, one row a step: where YES, NO and time may lead,
 * where a held job goes on, and where another attempt of the job does. It is typed from
 * `src/procedure/README.md` and from *Attempts of a job* in `src/store/README.md`, and never read
 * from the tables under test. A new phase needs a row here; the tests name one that has none.
 */

export interface ModelStep {
  readonly yes?: readonly string[];
  readonly no?: readonly string[];
  readonly byItself?: readonly string[];
  /** Where a held job goes on; at its own beginning where absent. */
  readonly goesOn?: string;
  /** A leg that grew is measured first; before there is resin in the break, not at every step. */
  readonly legMeasured?: 'always' | 'once-resin-is-in';
  /** With resin in the break: where another attempt goes on, and where it does nothing but cure. */
  readonly again: string;
  readonly cures: string;
}

/** Asks whether to end the job. */
export const STOPS = 'stops';
/** The job is done. */
export const FINISHES = 'finishes';
/** Where the attempt itself had gone on. */
export const AS_BEFORE = 'as before';
/** Before the work on the glass, in another attempt too. */
export const GATE = 'glass-gate';
/** Where the work stood when the leg grew. */
export const WHERE_IT_WAS = 'where it was';

const BEFORE_WORK = { again: AS_BEFORE, cures: AS_BEFORE } as const;
const IN_SEAL = {
  again: 'set-bridge',
  cures: 'injector-off',
  legMeasured: 'once-resin-is-in',
} as const;
const UNDER_LOAD = { again: 'set-bridge', cures: 'injector-off', legMeasured: 'always' } as const;
const DRY = { again: 'set-bridge', cures: 'injector-off' } as const;
const FILL_CURE = { again: 'cover-fill', cures: 'cover-fill' } as const;
const CURE = { again: 'cover-film', cures: 'cover-film', legMeasured: 'always' } as const;
const FINISH = { again: 'scrape', cures: 'injector-off' } as const;

const SEAL_TEST: ModelStep = { ...IN_SEAL, legMeasured: 'always', goesOn: 'seal-pull' };
const HANDS_ON_SEAL: ModelStep = { ...IN_SEAL, yes: ['seal-pull'] };

export const STEPS: Readonly<Record<string, ModelStep>> = {
  'self-test': { ...BEFORE_WORK, byItself: ['air-jump', 'vacuum-note', 'job-sheet'] },
  'air-jump': { ...BEFORE_WORK, yes: ['vacuum-note', 'job-sheet'], no: [STOPS] },
  'vacuum-note': { ...BEFORE_WORK, yes: ['job-sheet'] },
  'job-sheet': { ...BEFORE_WORK, yes: ['protect'] },
  // To the work of a first attempt, or to where another goes on.
  protect: { ...BEFORE_WORK, yes: ['inspect', AS_BEFORE] },
  inspect: { ...BEFORE_WORK, yes: ['end-stop', 'clean-pit', GATE] },
  // Of a crack whose tip lies in the outer ply.
  'end-stop': { ...BEFORE_WORK, yes: ['clean-pit'] },
  // A pane outside its range is brought there, and the work goes on by itself.
  [GATE]: { ...BEFORE_WORK, byItself: ['end-stop', 'clean-pit', 'set-bridge'] },
  'clean-pit': { ...BEFORE_WORK, yes: ['dry-pit'] },
  'dry-pit': { ...BEFORE_WORK, yes: ['set-bridge', GATE] },
  'set-bridge': { ...DRY, yes: ['close-seal'] },
  'close-seal': { ...DRY, yes: ['connect-hose'] },
  'connect-hose': { ...DRY, yes: ['seal-pull'] },
  'seal-pull': { ...SEAL_TEST, byItself: ['seal-watch'] },
  'seal-watch': {
    ...SEAL_TEST,
    byItself: [
      ...['reseat', 'dry-again', 'long-pull', 'test-again'],
      // Pressed before there is resin in injector or break.
      ...['seal-open', 'charge-injector', 'recharge', 'evacuate'],
    ],
  },
  reseat: HANDS_ON_SEAL,
  'dry-again': HANDS_ON_SEAL,
  'test-again': HANDS_ON_SEAL,
  'long-pull': { ...SEAL_TEST, byItself: ['seal-watch'] },
  // To the next part of a crack, whose seal is tested too.
  'move-injector': HANDS_ON_SEAL,
  'seal-open': { ...SEAL_TEST, byItself: ['seal-press'] },
  'seal-press': { ...SEAL_TEST, byItself: ['press-watch', 'foot-lifts'] },
  'press-watch': { ...SEAL_TEST, byItself: ['press-off', 'foot-lifts', 'test-again'] },
  'press-off': { ...SEAL_TEST, byItself: ['charge-injector'] },
  'foot-lifts': HANDS_ON_SEAL,
  'charge-injector': { ...UNDER_LOAD, yes: ['evacuate'] },
  evacuate: { ...UNDER_LOAD, byItself: ['vacuum-dwell'] },
  'vacuum-dwell': { ...UNDER_LOAD, byItself: ['ask-bubbles'], goesOn: 'evacuate' },
  'ask-bubbles': {
    ...UNDER_LOAD,
    yes: ['vacuum-dwell', 'bubbles-stay'],
    no: ['release'],
    goesOn: 'evacuate',
  },
  'bubbles-stay': { ...UNDER_LOAD, yes: ['release'], no: ['reseat'] },
  release: { ...UNDER_LOAD, byItself: ['pressurise'] },
  pressurise: { ...UNDER_LOAD, byItself: ['pressure-dwell'] },
  'pressure-dwell': { ...UNDER_LOAD, byItself: ['vent'], goesOn: 'pressurise' },
  vent: { ...UNDER_LOAD, byItself: ['ask-clear'] },
  'ask-clear': {
    ...UNDER_LOAD,
    yes: ['injector-off', 'move-injector'],
    no: ['ask-resin', 'recharge', 'offer-remedy', 'offer-cycle', 'accept-mark'],
  },
  'offer-remedy': { ...UNDER_LOAD, yes: ['try-remedy'], no: ['offer-remedy', 'offer-cycle'] },
  'try-remedy': { ...UNDER_LOAD, yes: ['ask-resin', 'recharge', 'seal-pull'] },
  'offer-cycle': { ...UNDER_LOAD, yes: ['ask-resin', 'recharge'], no: ['accept-mark'] },
  'ask-resin': { ...UNDER_LOAD, yes: ['evacuate'], no: ['recharge'] },
  recharge: { ...UNDER_LOAD, yes: ['evacuate'] },
  'accept-mark': { ...UNDER_LOAD, yes: ['injector-off', 'move-injector'], no: ['cycle-or-end'] },
  'cycle-or-end': { ...UNDER_LOAD, yes: ['ask-resin', 'recharge'], no: [STOPS] },
  'measure-leg': { ...UNDER_LOAD, yes: [STOPS], no: [WHERE_IT_WAS] },
  'injector-off': {
    yes: ['cover-fill', 'fill-pit'],
    again: 'injector-off',
    cures: 'injector-off',
    legMeasured: 'always',
  },
  'cover-fill': { ...FILL_CURE, yes: ['place-lamp-fill'], legMeasured: 'always' },
  'place-lamp-fill': { ...FILL_CURE, yes: ['cure-fill'], legMeasured: 'always' },
  'cure-fill': { ...FILL_CURE, byItself: ['uncover-fill'], legMeasured: 'always' },
  'uncover-fill': { yes: ['fill-pit'], again: 'uncover-fill', cures: 'uncover-fill' },
  'fill-pit': {
    yes: ['cover-film'],
    again: 'fill-pit',
    cures: 'fill-pit',
    legMeasured: 'always',
  },
  'cover-film': { ...CURE, yes: ['place-lamp'] },
  'place-lamp': { ...CURE, yes: ['cure'] },
  cure: { ...CURE, byItself: ['scrape', 'move-lamp'] },
  'move-lamp': { ...CURE, yes: ['place-lamp'] },
  // Resin that is soft has a further dose, twice at most.
  scrape: { ...FINISH, yes: ['polish'], no: ['cover-film', STOPS] },
  polish: { ...FINISH, yes: ['clean-injector'] },
  'clean-injector': { ...FINISH, yes: ['final-look'] },
  'final-look': { ...FINISH, again: 'final-look', yes: ['result'], no: ['result'] },
  result: { ...FINISH, again: 'final-look', yes: [FINISHES] },
};
