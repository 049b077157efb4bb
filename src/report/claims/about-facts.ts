/**
 * What a journal's header states beside the settings, as far as claims rest on it: bottles,
 * assessment, overrides, calibrations, care, and what was stated of the break. A part that is null was
 * not recorded, as in older journals, which is not the same as "none".
 */
import { listAt, numberAt, textAt } from '../../core/fields.ts';
import { valueAt } from '../../core/settings.ts';
import { kFromCelsius, paFromKPa } from '../../core/units.ts';
import type { JournalHeader } from '../../journal/journal-format.ts';
import { type BottleFact, bottleFactOf } from '../bottle-facts.ts';

/** A check that a person overrode. */
export interface SetAside {
  readonly item: string;
  readonly reason: string;
  /** Objections to the job; empty in a journal from before they were kept. */
  readonly against: readonly string[];
}

/** A rule that objected to the repair, or left the decision to a person. */
export interface RuleFact {
  readonly words: string;
  readonly ruleSet: string;
  readonly edition: string;
  readonly measured: string;
}

export interface Bottles {
  readonly fill: BottleFact | null;
  readonly pit: BottleFact | null;
}

export interface AboutFacts {
  /** The day by which dates are judged, YYYY-MM-DD. */
  readonly day: string;
  readonly bottles: Bottles;
  readonly assessment: {
    readonly answer: string;
    readonly ruleSets: readonly string[];
    readonly rules: readonly RuleFact[];
    readonly technical: string;
    readonly technicalReasons: readonly string[];
  } | null;
  readonly setAside: readonly SetAside[] | null;
  readonly calibrations:
    | readonly { readonly channel: string; readonly on: string; readonly due: string }[]
    | null;
  /** `item` and `due`: null in journals from before they were kept. */
  readonly care:
    | readonly {
        readonly item: string | null;
        readonly what: string;
        readonly words: string;
        readonly due: string | null;
      }[]
    | null;
  readonly stated: {
    readonly moisture: string | null;
    readonly glassK: number | null;
    /**
     * Stated for the day of the job only, because the pressure of the air changes with the weather.
     */
    readonly airPa: number | null;
  };
}

type Header = Pick<JournalHeader, 'about' | 'startedAt' | 'inputs'>;

export function aboutFactsOf(header: Header): AboutFacts {
  const { about, inputs } = header;
  const day = dayOf(header);
  return {
    day,
    bottles: bottlesOf(header),
    assessment: assessmentOf(valueAt(about, ['intake', 'assessment'])),
    setAside: isListAt(about, 'overrides') ? setAsideIn(about) : null,
    calibrations: isListAt(about, 'calibrations')
      ? listAt(about, 'calibrations').map((row) => ({
          channel: textAt(row, 'channel') ?? '',
          on: textAt(row, 'on') ?? '',
          due: textAt(row, 'due') ?? '',
        }))
      : null,
    care: isListAt(about, 'care')
      ? listAt(about, 'care').map((row) => ({
          item: textAt(row, 'item'),
          what: textAt(row, 'what') ?? '',
          words: textAt(row, 'state') ?? '',
          due: textAt(row, 'due'),
        }))
      : null,
    stated: statedIn(about, inputs.job, day),
  };
}

const isListAt = (file: unknown, field: string): boolean => Array.isArray(valueAt(file, [field]));

export const bottlesOf = ({ about }: Pick<JournalHeader, 'about'>): Bottles => ({
  fill: bottleFactOf(valueAt(about, ['resin'])),
  pit: bottleFactOf(valueAt(about, ['pitResin'])),
});

/** The day by which the care gate judged, or else the day on which the job began. */
const dayOf = ({ about, startedAt }: Pick<JournalHeader, 'about' | 'startedAt'>): string =>
  textAt(about, 'day') ?? startedAt.slice(0, 10);

const setAsideIn = (about: unknown): readonly SetAside[] =>
  listAt(about, 'overrides').map((one) => ({
    item: textAt(one, 'item') ?? '',
    reason: textAt(one, 'reason') ?? '',
    against: texts(listAt(one, 'against')),
  }));

function statedIn(about: unknown, job: unknown, day: string): AboutFacts['stated'] {
  const sheet = valueAt(about, ['intake', 'sheet']);
  const glassC = numberAt(job, 'glassC');
  const airKPa = textAt(sheet, 'lookedOn') === day ? numberAt(sheet, 'conditions', 'airKPa') : null;
  return {
    moisture: textAt(sheet, 'damage', 'moisture'),
    glassK: glassC === null ? null : kFromCelsius(glassC),
    airPa: airKPa === null ? null : paFromKPa(airKPa),
  };
}

function assessmentOf(assessment: unknown): AboutFacts['assessment'] {
  const answer = textAt(assessment, 'answer');
  if (answer === null) return null;
  return {
    answer,
    ruleSets: listAt(assessment, 'ruleSets').map((set) =>
      [textAt(set, 'name'), textAt(set, 'edition')].filter((part) => part !== null).join(', '),
    ),
    rules: listAt(assessment, 'reasons').map((rule) => ({
      words: textAt(rule, 'words') ?? '',
      ruleSet: textAt(rule, 'ruleSet') ?? '',
      edition: textAt(rule, 'edition') ?? '',
      measured: textAt(rule, 'measured') ?? '',
    })),
    technical: textAt(assessment, 'technical', 'answer') ?? '',
    technicalReasons: texts(listAt(assessment, 'technical', 'reasons')),
  };
}

const texts = (values: readonly unknown[]): readonly string[] =>
  values.filter((value) => typeof value === 'string');
