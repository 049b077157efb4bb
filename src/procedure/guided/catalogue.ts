/**
 * The words of the guided procedures, as data in one file per language; alarms, states and buttons
 * have theirs in the panel's catalogue. This file defines the required keys and their lengths; a
 * test checks the fit after accents are removed, with `guided-face.ts`.
 */
import { z } from 'zod';
import { PROCEDURES, STEP_IDS, type StepId } from '../../core/guided-events.ts';
import { schemaName, text } from '../../core/settings.ts';

/** An opening question mark is left out on the display. */
const LINE = 21;
/** The longest mark, a space, and `? ` stand before it. */
const TITLE = 15;

/** Why a result did not pass and what to look for first, as the care room says it in English. */
const REFUSALS = [
  'stop-contact',
  'pressure-switch',
  'leak',
  'leak-unclear',
  'pull-not-reached',
  'pull-slow',
  'ultimate',
  'points-close',
  'correction',
  'residual',
  'uncertainty',
  'no-light',
  'spread',
  'uncertainty-light',
  'look-pressure',
  'look-temperature',
  'look-light',
] as const;
type RefusalId = (typeof REFUSALS)[number];

const stepWords = z.strictObject({
  title: text(TITLE),
  /** Where a step has a live value above them, only the second line is shown. */
  lines: z.tuple([text(LINE), text(LINE)]),
  /** Null while a number is entered: MORE raises it. */
  more: text(400).nullable(),
  /** What to check when the step took too long; null where only a person was awaited. */
  late: text(300).nullable(),
});
export type StepWords = z.infer<typeof stepWords>;

export const guidedCatalogueSchema = z.strictObject({
  schema: schemaName('meniscus/guided-catalogue@1'),
  language: text(10),
  titles: z.strictObject(
    Object.fromEntries(PROCEDURES.map((name) => [name, text(TITLE)])) as Record<
      (typeof PROCEDURES)[number],
      z.ZodString
    >,
  ),
  /** Labels of buttons on screens that a repair does not have. */
  buttons: z.strictObject({ keep: text(LINE), entry: text(LINE) }),
  live: z.strictObject({ noReading: text(LINE), uncertainty: text(10) }),
  results: z.strictObject({
    passed: text(LINE),
    notPassed: text(LINE),
    correction: text(9),
    factor: text(9),
    pumpDown: text(9),
    ultimate: text(9),
    leak: text(9),
  }),
  refusals: z.strictObject(
    Object.fromEntries(REFUSALS.map((id) => [id, text(300)])) as Record<RefusalId, z.ZodString>,
  ),
  ends: z.strictObject({
    kept: text(120),
    keptNotPassed: text(120),
    thrownAway: text(120),
    nobodyAnswered: text(120),
    person: text(120),
    held: text(120),
  }),
  steps: z.strictObject(
    Object.fromEntries(STEP_IDS.map((id) => [id, stepWords])) as Record<StepId, typeof stepWords>,
  ),
});
export type GuidedCatalogue = z.infer<typeof guidedCatalogueSchema>;
