/**
 * What a named person may override for one repair, with a reason that goes into the record: an
 * assessment that does not say "allowed", an unsuitable bottle of resin, and overdue care where its
 * table allows it. Nothing else can be overridden.
 */
import { InvalidArgumentError } from 'commander';
import { CARE_ITEM_NAMES, CARE_ITEMS } from '../../care/due-item.ts';

const OF_THE_JOB = {
  assessment: 'assessment of the damage',
  resin: 'bottle of resin',
  'pit-resin': 'bottle of pit resin',
} as const;

const OF_CARE = CARE_ITEM_NAMES.filter((name) => CARE_ITEMS[name].mayOverride);

export const OVERRIDABLE: readonly string[] = [...Object.keys(OF_THE_JOB), ...OF_CARE];
export type JobOverrideItem = keyof typeof OF_THE_JOB;

export interface NamedOverride {
  readonly item: string;
  readonly reason: string;
}

/** An override that was needed, with the objections, one line each. */
export interface UsedOverride extends NamedOverride {
  readonly against: readonly string[];
}

const LONGEST_REASON = 200;

/** ITEM=REASON, as --override takes it; may be given again. */
export function collectOverride(
  words: string,
  before: readonly NamedOverride[],
): readonly NamedOverride[] {
  const split = words.indexOf('=');
  const item = split < 0 ? words : words.slice(0, split);
  const reason = split < 0 ? '' : words.slice(split + 1).trim();
  if (!OVERRIDABLE.includes(item)) {
    throw new InvalidArgumentError(`accepted: ITEM=REASON with one of ${OVERRIDABLE.join(', ')}.`);
  }
  if (reason === '' || reason.length > LONGEST_REASON) {
    throw new InvalidArgumentError(`accepted: a reason of 1 to ${LONGEST_REASON} characters.`);
  }
  return [...before.filter((one) => one.item !== item), { item, reason }];
}

export type JobGate =
  | {
      readonly ok: true;
      readonly warnings: readonly string[];
      readonly used: readonly UsedOverride[];
    }
  | { readonly ok: false; readonly lines: readonly string[] };

/** `against`: objections to the job, one line each; empty where it may begin. */
export function jobGate(
  item: JobOverrideItem,
  against: readonly string[],
  overrides: readonly NamedOverride[],
): JobGate {
  const given = overrides.find((one) => one.item === item);
  const label = OF_THE_JOB[item];
  if (against.length === 0) {
    const unused = given === undefined ? [] : [`${label} needs no override; none is recorded`];
    return { ok: true, warnings: unused, used: [] };
  }
  if (given === undefined) {
    const how = `for this repair only, by a person who may decide it: --override ${item}=REASON --by NAME`;
    return { ok: false, lines: [...against.map((words) => `${label}: ${words}`), how] };
  }
  return {
    ok: true,
    used: [{ ...given, against }],
    warnings: [
      ...against.map((words) => `${label}: ${words}`),
      `${label} is overridden for this repair: ${given.reason}`,
    ],
  };
}
