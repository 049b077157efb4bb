/**
 * The phases of one repair in trade order, one row each, with the facts that other rooms need:
 * alarms, guard, pane, display and report. A phase is identified by its name; its number on the
 * display follows from the order of the rows. `procedure/` defines what a phase does.
 */

/**
 * Parts of a repair in trade order; the display numbers a phase by its part and its position in it.
 * A job whose parts are cured together never sees the fill's own cure, and a sound one no remedy:
 * such steps are `aside` and carry the number of the step before them, with a letter, so that nobody
 * meets a gap.
 */
const PARTS = ['unit', 'job', 'hands', 'seal', 'cycles', 'cure', 'finish'] as const;
type Part = (typeof PARTS)[number];

interface PhaseTraits {
  readonly part: Part;
  /** Off the way that every job takes. */
  readonly aside?: true;
  /** How the closed chamber is worked; absent while it is open to the air. */
  readonly chamber?: 'to-vacuum' | 'to-pressure' | 'held' | 'closed';
  /** The chamber is let down, and the reading must come back to the air's. */
  readonly letDown?: true;
  /** The lamp is on. */
  readonly lamp?: true;
  /**
   * The pane's temperature matters although the chamber is open and the lamp is off; `changing`: only
   * how fast it changes, because the pane is on its way into the range.
   */
  readonly glassWatched?: true | 'changing';
  /** Liquid resin is exposed to daylight; where a leg may have grown dry, only once there is any. */
  readonly resinOpen?: true | 'once-charged';
  /** The portion treated, where pit and fill are cured apart; absent for the fill. */
  readonly portion?: 'pit';
  /**
   * Another attempt of the same job may begin its work here: the chamber is open, the lamp is off,
   * and a person works or looks before anything loads the pane.
   */
  readonly entry?: true;
}

export const PHASES = {
  'self-test': { part: 'unit' },
  'air-jump': { part: 'unit', aside: true },
  'vacuum-note': { part: 'unit', aside: true },
  'job-sheet': { part: 'job' },
  protect: { part: 'hands' },
  inspect: { part: 'hands' },
  // Only a pane outside the range of the profile has to pass it.
  'glass-gate': { part: 'hands', aside: true, glassWatched: 'changing' },
  // The end of a crack, so that it does not run on.
  'end-stop': { part: 'hands', aside: true },
  'clean-pit': { part: 'hands' },
  'dry-pit': { part: 'hands' },
  'set-bridge': { part: 'hands', entry: true },
  'close-seal': { part: 'hands' },
  'connect-hose': { part: 'hands' },
  'seal-pull': { part: 'seal', chamber: 'to-vacuum', resinOpen: 'once-charged' },
  'seal-watch': { part: 'seal', chamber: 'closed', resinOpen: 'once-charged' },
  reseat: { part: 'seal', aside: true, resinOpen: 'once-charged' },
  'dry-again': { part: 'seal', aside: true, resinOpen: 'once-charged' },
  'long-pull': { part: 'seal', aside: true, chamber: 'to-vacuum', resinOpen: 'once-charged' },
  'test-again': { part: 'seal', aside: true, resinOpen: 'once-charged' },
  // Suction holds the foot down, pressure lifts it: the dry seal is pressed before resin goes in.
  'seal-open': { part: 'seal', letDown: true, glassWatched: true },
  'seal-press': { part: 'seal', chamber: 'to-pressure' },
  'press-watch': { part: 'seal', chamber: 'closed' },
  'press-off': { part: 'seal', letDown: true, glassWatched: true },
  'foot-lifts': { part: 'seal', aside: true },
  // To the next part of a long break, whose seal is tested dry too.
  'move-injector': { part: 'seal', aside: true, resinOpen: 'once-charged' },
  'charge-injector': { part: 'seal', resinOpen: true },
  evacuate: { part: 'cycles', chamber: 'to-vacuum', resinOpen: true },
  'vacuum-dwell': { part: 'cycles', chamber: 'held', resinOpen: true },
  'ask-bubbles': { part: 'cycles', chamber: 'held', resinOpen: true },
  'bubbles-stay': { part: 'cycles', aside: true, glassWatched: true, resinOpen: true },
  release: { part: 'cycles', letDown: true, glassWatched: true, resinOpen: true },
  pressurise: { part: 'cycles', chamber: 'to-pressure', resinOpen: true },
  'pressure-dwell': { part: 'cycles', chamber: 'held', resinOpen: true },
  vent: { part: 'cycles', letDown: true, glassWatched: true, resinOpen: true },
  'ask-clear': { part: 'cycles', resinOpen: true },
  'offer-remedy': { part: 'cycles', aside: true, resinOpen: true },
  'try-remedy': { part: 'cycles', aside: true, glassWatched: true, resinOpen: true },
  'offer-cycle': { part: 'cycles', aside: true, resinOpen: true },
  'ask-resin': { part: 'cycles', aside: true, resinOpen: true },
  recharge: { part: 'cycles', aside: true, resinOpen: true },
  'accept-mark': { part: 'cycles', aside: true, resinOpen: true },
  'cycle-or-end': { part: 'cycles', aside: true, resinOpen: true },
  // After a HOLD for a leg that grew, wherever that was.
  'measure-leg': { part: 'cycles', aside: true, glassWatched: true, resinOpen: 'once-charged' },
  'injector-off': { part: 'cure', resinOpen: true, entry: true },
  'cover-fill': { part: 'cure', aside: true, resinOpen: true, entry: true },
  'place-lamp-fill': { part: 'cure', aside: true, resinOpen: true },
  'cure-fill': { part: 'cure', aside: true, lamp: true },
  'uncover-fill': { part: 'cure', aside: true, entry: true },
  'fill-pit': { part: 'cure', resinOpen: true, portion: 'pit', entry: true },
  'cover-film': { part: 'cure', resinOpen: true, portion: 'pit', entry: true },
  'place-lamp': { part: 'cure', resinOpen: true, portion: 'pit' },
  cure: { part: 'cure', lamp: true, portion: 'pit' },
  // To the next field of a break that is longer than the lamp's.
  'move-lamp': { part: 'cure', aside: true, resinOpen: true, portion: 'pit' },
  scrape: { part: 'finish', portion: 'pit', entry: true },
  polish: { part: 'finish', portion: 'pit' },
  'clean-injector': { part: 'finish', portion: 'pit' },
  'final-look': { part: 'finish', portion: 'pit', entry: true },
  result: { part: 'finish', portion: 'pit' },
} as const satisfies Readonly<Record<string, PhaseTraits>>;
export type PhaseId = keyof typeof PHASES;
export const PHASE_IDS = Object.keys(PHASES) as readonly PhaseId[];

const traitsOf = (phase: PhaseId): PhaseTraits => PHASES[phase];
export const partOf = (phase: PhaseId): Part => PHASES[phase].part;
const phasesWith = (has: (traits: PhaseTraits) => boolean): ReadonlySet<PhaseId> =>
  new Set(PHASE_IDS.filter((phase) => has(traitsOf(phase))));

const LETTERS_ASIDE = 'abcdefgh';

/** The number of each phase on the display: only shown, never used as a key. */
export const STEP_NUMBERS = Object.fromEntries(PARTS.flatMap(numbersIn)) as Readonly<
  Record<PhaseId, string>
>;

function numbersIn(part: Part, index: number): readonly (readonly [PhaseId, string])[] {
  let [place, letter] = [0, 0];
  return PHASE_IDS.filter((phase) => traitsOf(phase).part === part).map((phase) => {
    [place, letter] = traitsOf(phase).aside === true ? [place, letter + 1] : [place + 1, 0];
    const aside = letter === 0 ? '' : LETTERS_ASIDE.charAt(letter - 1);
    return [phase, `${index + 1}.${place}${aside}`];
  });
}

/**
 * The phases in which the lamp is on: the fill's own cure, and the last cure, of the pit or of
 * both.
 */
export const CURE_PHASES = phasesWith(({ lamp }) => lamp === true);
/** The phases for the pit where it is cured apart; the phases before them are for the fill. */
export const PIT_PHASES = phasesWith(({ portion }) => portion === 'pit');
/** The chamber is closed, whether its pressure is held, changed or only observed. */
export const CLOSED_PHASES = phasesWith(({ chamber }) => chamber !== undefined);
/** Closed, and neither pumped nor vented: only its pressure is observed. */
export const SHUT_OFF_PHASES = phasesWith(({ chamber }) => chamber === 'closed');
export const LET_DOWN_PHASES = phasesWith(({ letDown }) => letDown === true);
export const VACUUM_APPROACHED = phasesWith(({ chamber }) => chamber === 'to-vacuum');
/** The pump works towards a set-point, or to hold it. */
export const PUMPED_PHASES = phasesWith(
  ({ chamber }) => chamber !== undefined && chamber !== 'closed',
);
export const HOLDING_SET_POINT = phasesWith(({ chamber }) => chamber === 'held');
/** The pane is loaded or heated, so that its temperature matters. */
export const GLASS_PHASES = phasesWith(
  ({ chamber, lamp, glassWatched }) =>
    chamber !== undefined || lamp === true || glassWatched === true,
);
/** The same, and those in which the pane is only brought to its temperature. */
export const HEAT_PHASES = phasesWith(
  ({ chamber, lamp, glassWatched }) =>
    chamber !== undefined || lamp === true || glassWatched !== undefined,
);
/** Where another attempt may begin its work. */
export const ENTRY_PHASES = phasesWith(({ entry }) => entry === true);
/** `resinIn`: in the injector or in the break. */
export function isResinOpen(phase: PhaseId, resinIn: boolean): boolean {
  const { resinOpen } = traitsOf(phase);
  return resinOpen === true || (resinOpen === 'once-charged' && resinIn);
}
