/**
 * Schema of a rule set file: where it holds, whom it binds, its edition and source, its zones in
 * order, and its rules, each with the provenance of its figure. A shop's own file has the same
 * form. All chosen sets apply together, so a shop's set can only add refusals. `judge-condition.ts`
 * and `assess.ts` judge the rules.
 */
import { z } from 'zod';
import {
  type Checked,
  checkSettings,
  choice,
  quantity,
  schemaName,
  text,
  wholeNumber,
} from '../../core/settings.ts';
import { areaSchema } from '../sheet/area.ts';
import { VEHICLE_CLASSES } from '../sheet/intake-sheet.ts';
import { LIMIT_UNITS, MEASURE_NAMES, MEASURES, type Measure } from '../sheet/measures.ts';

/**
 * How close the author of a figure was to its source text: read at the body that issues it, in a
 * faithful copy elsewhere, retold by others, or remembered. "not-read" has no figure: the text has
 * one, and a person takes it from there.
 */
export const PROVENANCES = [
  'seen',
  'copy',
  'second-hand',
  'from-memory',
  'not-read',
  'shop',
] as const;
export type Provenance = (typeof PROVENANCES)[number];

export const ANYWHERE = 'anywhere';

const id = z.string().regex(/^[a-z0-9][a-z0-9-]{0,59}$/, {
  error: 'up to 60 small letters, digits and hyphens',
});
const answers = z
  .array(z.union([z.string(), z.boolean()], { error: 'an answer' }), { error: 'a list of answers' })
  .min(1, { error: 'at least one answer' });

const limit = z.strictObject({
  is: choice(['at-most', 'less-than', 'at-least']),
  value: quantity(0, 5000, ''),
  unit: choice(LIMIT_UNITS),
});
export type Limit = z.infer<typeof limit>;

const condition = {
  about: choice(MEASURE_NAMES),
  /** For a quantity; a question has `forbids` instead. */
  limit: limit.optional(),
  forbids: answers.optional(),
  /** Applies only for these answers to other questions. */
  when: z.partialRecord(choice(MEASURE_NAMES), answers).default({}),
};
const conditionSchema = z.strictObject(condition);
export type Condition = z.infer<typeof conditionSchema>;

const date = z.iso.date({ error: 'a date as YYYY-MM-DD, or null where it is not known' });
const lookedOn = date.nullable();

const ruleSchema = z.strictObject({
  id,
  /** Zones by id, or "anywhere". */
  in: z.array(id).min(1, { error: 'at least one zone, or "anywhere"' }),
  ...condition,
  // biome-ignore lint/suspicious/noThenProperty: the file's word for what follows; never awaited.
  then: choice(['not-allowed', 'needs-a-person']),
  words: text(300),
  provenance: choice(PROVENANCES),
  /** Who says so. */
  source: text(300),
  /** A few words of the text, so that anybody can compare; null where it was not read. */
  quote: text(300).nullable().default(null),
  lookedOn: lookedOn.default(null),
});
export type Rule = z.infer<typeof ruleSchema>;

const zoneSchema = z.strictObject({ id, words: text(120), area: areaSchema });
export type Zone = z.infer<typeof zoneSchema>;

const mass = quantity(0, 60_000, 'kg');

const coversSchema = z.strictObject({
  vehicles: z.union([z.literal('all'), z.array(choice(VEHICLE_CLASSES)).min(1)], {
    error: `"all", or a list of ${VEHICLE_CLASSES.join(', ')}`,
  }),
  /** Gross mass, where it divides vehicles: above the first, up to the second. */
  overKg: mass.nullable().default(null),
  upToKg: mass.nullable().default(null),
  fewerSeatsThan: wholeNumber(1, 200, 'seats').nullable().default(null),
  use: choice(['any', 'commercial']).default('any'),
});

/** Recorded once it has happened; from then on a person answers from the edition in force. */
const outOfForce = z.strictObject({
  supersededBy: text(120).nullable(),
  /** Only the month where no source states the day. */
  withdrawnOn: z
    .string()
    .regex(/^\d{4}-(0[1-9]|1[0-2])(-(0[1-9]|[12]\d|3[01]))?$/, {
      error: 'a month or a date as YYYY-MM or YYYY-MM-DD, or null where it is not known',
    })
    .nullable(),
  provenance: choice(PROVENANCES),
  source: text(300),
});

const ruleSetFileSchema = z.strictObject({
  schema: schemaName('meniscus/rule-set@1'),
  id,
  name: text(120),
  jurisdiction: text(80),
  /**
   * Its authority: law or a ministry's notice, a vehicle inspection, a standard. A shop's own set
   * adds refusals and never makes a repair allowed.
   */
  force: choice(['authority', 'inspection', 'standard', 'shop']),
  /** Conditions for repairing, or limits on the mark that may remain in the glass. */
  kind: choice(['repair', 'finished-mark']),
  covers: coversSchema,
  edition: text(120),
  /** From this day on; before it the set permits nothing. */
  inForceFrom: date.nullable(),
  /** Null while this edition is in force, or while nothing else is known. */
  outOfForce: outOfForce.nullable().default(null),
  source: text(300),
  notes: z.array(text(500)).max(12),
  /** In order: damage counts to the first zone that it touches. A zone without rules is free. */
  zones: z.array(zoneSchema).max(8),
  rules: z.array(ruleSchema).min(1, { error: 'at least one rule' }).max(40),
});
type RuleSetFile = z.infer<typeof ruleSetFileSchema>;

export const ruleSetSchema = ruleSetFileSchema.check(({ value, issues }) => {
  for (const { input, path, message } of misfits(value)) {
    issues.push({ code: 'custom', input, path, message });
  }
});
export type RuleSet = z.infer<typeof ruleSetSchema>;

export const parseRuleSet = (input: unknown, file: string): Checked<RuleSet> =>
  checkSettings(ruleSetSchema, input, file);

interface Misfit {
  readonly input: unknown;
  readonly path: (string | number)[];
  readonly message: string;
}

/** Checks that concern more than one field. */
function misfits({ rules, zones, kind, outOfForce }: RuleSetFile): readonly Misfit[] {
  const known = [ANYWHERE, ...zones.map((zone) => zone.id)];
  return [
    ...(outOfForce?.supersededBy === null && outOfForce.withdrawnOn === null
      ? [misfit(outOfForce, ['outOfForce'], 'what superseded it, when it was withdrawn, or both')]
      : []),
    ...twice(
      zones.map((zone) => zone.id),
      'zones',
    ),
    ...twice(
      rules.map((rule) => rule.id),
      'rules',
    ),
    ...rules.flatMap((rule, at) => [
      ...auditMisfits(rule, ['rules', at]),
      ...rule.in.flatMap((zone, n) =>
        known.includes(zone)
          ? []
          : [misfit(zone, ['rules', at, 'in', n], `one of ${known.join(', ')}`)],
      ),
      ...conditionMisfits(rule, ['rules', at]),
      ...(kind === 'finished-mark' && rule.then !== 'needs-a-person'
        ? [misfit(rule.then, ['rules', at, 'then'], FINISHED_LATER)]
        : []),
    ]),
  ];
}

const FINISHED_LATER =
  '"needs-a-person" in a set of kind finished-mark, because that mark is measured after the repair';

/** What was read or retold names the day, and what was copied its words. */
function auditMisfits({ provenance, quote, lookedOn }: Rule, path: (string | number)[]) {
  const found = ['seen', 'copy', 'second-hand'].includes(provenance);
  return [
    ...(found && lookedOn === null
      ? [misfit(lookedOn, [...path, 'lookedOn'], `the day it was looked at, for "${provenance}"`)]
      : []),
    ...(provenance === 'copy' && quote === null
      ? [misfit(quote, [...path, 'quote'], 'a short quotation, for "copy"')]
      : []),
  ];
}

const misfit = (input: unknown, path: (string | number)[], message: string): Misfit => ({
  input,
  path,
  message,
});

const twice = (ids: readonly string[], list: string): readonly Misfit[] =>
  ids.flatMap((one, at) =>
    ids.indexOf(one) === at && one !== ANYWHERE
      ? []
      : [misfit(one, [list, at, 'id'], `an id that no other has, and not "${ANYWHERE}"`)],
  );

function conditionMisfits(rule: Condition, path: (string | number)[]): readonly Misfit[] {
  const { unit, answers: possible }: Measure = MEASURES[rule.about];
  const forbidden =
    unit === null
      ? answerMisfits(rule.forbids, possible, [...path, 'forbids'])
      : limitMisfits(rule.limit, unit, path);
  const extra = unit === null ? rule.limit : rule.forbids;
  const extraName = unit === null ? 'limit' : 'forbids';
  const nothing = `nothing, because ${rule.about} is a ${unit === null ? 'question' : 'quantity'}`;
  return [
    ...forbidden,
    ...(extra === undefined ? [] : [misfit(extra, [...path, extraName], nothing)]),
    ...Object.entries(rule.when).flatMap(([name, wanted]) =>
      answerMisfits(wanted, MEASURES[name as keyof typeof MEASURES].answers, [
        ...path,
        'when',
        name,
      ]),
    ),
  ];
}

function limitMisfits(found: Limit | undefined, unit: string, path: (string | number)[]) {
  const units = unit === 'mm' ? ['mm', 'in'] : [unit];
  if (found === undefined) return [misfit(found, [...path, 'limit'], 'a limit')];
  if (units.includes(found.unit)) return [];
  return [misfit(found.unit, [...path, 'limit', 'unit'], units.join(' or '))];
}

function answerMisfits(
  found: readonly (string | boolean)[] | undefined,
  possible: readonly (string | boolean)[],
  path: (string | number)[],
): readonly Misfit[] {
  const accepted =
    possible.length === 0 ? 'a question, not a quantity' : `from ${possible.join(', ')}`;
  if (found === undefined) return [misfit(found, path, `a list of answers ${accepted}`)];
  return found.flatMap((answer, at) =>
    possible.includes(answer) ? [] : [misfit(answer, [...path, at], accepted)],
  );
}
