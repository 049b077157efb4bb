/**
 * The contents of a catalogue: every word on the display, in one language, as one JSON file. Other
 * rooms define the keys of alarms and kinds of damage, which are passed in. Words may carry
 * accents: `text.ts` converts them to the display's characters. `catalogue-fit.ts` checks whether
 * they fit.
 */

import { z } from 'zod';
import {
  RECHARGE_WHYS,
  REMEDY_IDS,
  type RechargeWhy,
  type RemedyId,
  SEAL_WHYS,
  type SealWhy,
} from '../core/events.ts';
import { BUTTONS, type Button } from '../core/frame.ts';
import { languageTag } from '../core/language-file.ts';
import { LETTER_SLOTS, LETTERS } from '../core/letters.ts';
import { PHASE_IDS, type PhaseId } from '../core/phases.ts';
import { PHRASE_KEYS, type PhraseKey } from '../core/phrases.ts';
import { schemaName, text } from '../core/settings.ts';

/** Words of the display that belong to no single step or alarm, with the figures that they take. */
export const LIVE_KEYS = [
  'pressure',
  'pressureBrief',
  'pressureUnknown',
  'timeLeft',
  'timeUnknown',
  'dose',
  'doseBrief',
  'margin',
  'daylight',
  'vacuumChanged',
  'vacuumLeaves',
  'hoseOff',
  'glass',
  'glassNow',
  'glassUnknown',
  'warmTo',
  'coolTo',
  'glassInside',
  'job',
  'vehicle',
  'noVehicle',
  'resin',
  'lot',
  'reference',
  'goesOn',
  'clear',
  'markRemains',
  'legLimit',
  'legLimitUnknown',
  'cyclePlanned',
  'cycleExtra',
  'vacuumLeft',
  'vacuumLongest',
  'position',
  'field',
  'moveOn',
  'lightKnown',
  'lightUnknown',
] as const;
export type LiveKey = (typeof LIVE_KEYS)[number];

export const STATE_KEYS = [
  'holding',
  'held',
  'endAsked',
  'whyAsked',
  'restarting',
  'stopping',
  'stopped',
  'aborting',
  'aborted',
  'complete',
  'caution',
  'makingSafe',
  'outputsOff',
  'wait',
] as const;
export type StateKey = (typeof STATE_KEYS)[number];

/** Why a job is held or over, where no alarm is the reason. */
export const REASON_KEYS = [
  'step-unfinished',
  'held-by-hand',
  'leg-grew',
  'leg-too-long',
  'still-soft',
  'resin-wet',
  'resin-inside',
  'ask-leg-grew',
  'ask-resin-inside',
  'ask-end',
  'stopped-by-choice',
  'stopped-held',
  'interrupted',
  'repair-done',
  'cannot-go-on',
] as const;
export type ReasonKey = (typeof REASON_KEYS)[number];

/** The buttons' actions: at the left end of the last line, and at its right end. */
export const BUTTON_KEYS = [
  'automatic',
  'confirm',
  'question',
  'help',
  'alarm',
  'held',
  'heldToEnd',
  'endAsked',
  'whyAsked',
  'end',
  'choice',
  'closeAsked',
] as const;
export type ButtonKey = (typeof BUTTON_KEYS)[number];

/** The list of jobs on the display. */
export const JOB_KEYS = [
  'title',
  'place',
  'none',
  'add',
  'refused',
  'start',
  'go-on',
  'cure-only',
  'close-replaced',
  'close-other',
] as const;

export const ADVICE_KEYS = ['another-cycle', 'warm-the-pane'] as const;
export type AdviceKey = (typeof ADVICE_KEYS)[number];

function ownLetters(letters: string, { addIssue }: z.RefinementCtx<string>): void {
  const unknown = [...letters].filter((letter) => !LETTERS.has(letter)).join('');
  const accepted = (message: string) => addIssue({ code: 'custom', message });
  if (unknown !== '') accepted(`letters of ${[...LETTERS.keys()].join('')}, not "${unknown}"`);
  if (new Set(letters).size < [...letters].length) accepted('each letter once');
  if ([...letters].length > LETTER_SLOTS) accepted(`at most ${LETTER_SLOTS} letters`);
}

const line = text(40);
/** The button lines leave room for no more. */
const buttonName = text(4);
const words = text(400);
const each = <const K extends string, V extends z.ZodType>(keys: readonly K[], value: V) =>
  z.record(z.enum(keys as readonly [K, ...K[]]), value);

const prompt = z.strictObject({
  title: line,
  /** Empty where a live value takes the line. */
  lines: z.tuple([z.string().max(40), z.string().max(40)]),
  more: words,
  caution: words.optional(),
});
export type Prompt = z.infer<typeof prompt>;

/** A remedy: its name, what hands do, why, and what may go wrong. */
const remedy = z.strictObject({
  title: line,
  lines: z.tuple([line, line]),
  more: words,
  caution: words,
});

const alarm = z.strictObject({ title: line, happened: words, did: words, now: words });
export type AlarmWords = z.infer<typeof alarm>;

/** Keys that other rooms define. */
export interface CatalogueKeys {
  readonly alarms: readonly string[];
  readonly damage: readonly string[];
}

export const catalogueSchemaFor = (keys: CatalogueKeys) =>
  z.strictObject({
    schema: schemaName('meniscus/catalogue@1'),
    /** A BCP 47 tag: `en`, `es`, `pt-BR`. */
    language: languageTag,
    /** The letters beyond ASCII that the display is given for this language. */
    letters: z.string().superRefine(ownLetters).default(''),
    /** The labels of the buttons, which the texts use. */
    names: each<Button, typeof buttonName>(BUTTONS, buttonName),
    prompts: each<PhaseId, typeof prompt>(PHASE_IDS, prompt),
    advice: each(ADVICE_KEYS, words),
    buttons: each(BUTTON_KEYS, z.tuple([line, z.string().max(20)])),
    states: each(STATE_KEYS, line),
    live: each(LIVE_KEYS, words),
    jobs: each(JOB_KEYS, line),
    reasons: each(REASON_KEYS, words),
    seal: each<SealWhy, typeof line>(SEAL_WHYS, line),
    remedies: each<RemedyId, typeof remedy>(REMEDY_IDS, remedy),
    recharge: each<RechargeWhy, typeof line>(RECHARGE_WHYS, line),
    damage: each(keys.damage, line),
    phrases: each<PhraseKey, typeof words>(PHRASE_KEYS, words),
    /** What follows what happened: the limit alone, or what was expected and what was seen. */
    alarmFigures: z.strictObject({ limit: words, told: words }),
    alarms: each(keys.alarms, alarm),
  });
export type Catalogue = z.infer<ReturnType<typeof catalogueSchemaFor>>;
