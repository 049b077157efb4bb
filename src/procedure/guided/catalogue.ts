/**
 * The words of the guided procedures, as data in one file for each language; alarms, states and
 * buttons have theirs in the panel's catalogue. This file says what must be there and how long it may
 * be; whether it fits once accents are gone is tested, where it stands in `control/guided-face.ts`.
 */
import { z } from 'zod';
import { PROCEDURES, STEP_IDS, type StepId } from '../../core/guided-events.ts';
import { schemaName, text } from '../../core/settings.ts';

/** An opening question mark is left out on the display. */
const LINE = 21;
/** The longest mark, a space, and `? ` stand before it. */
const TITLE = 15;

const stepWords = z.strictObject({
  title: text(TITLE),
  /** Under the live value, where a step has one, only the second is seen. */
  lines: z.tuple([text(LINE), text(LINE)]),
  /** Null while a number is entered: MORE raises it. */
  more: text(400).nullable(),
  /** What to look for when the step took too long; null where only a person was waited for. */
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
  /** What the buttons do where a repair has no such screen. */
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
