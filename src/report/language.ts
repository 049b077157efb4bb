/**
 * The languages in which a record's papers are worded. What a record says travels as sayings; the
 * words are chosen where a page or a line is written. `report.json` and the header of a further
 * attempt keep the English sentence, which no later change of language touches.
 */
import type { AlarmId } from '../core/alarm-ids.ts';
import type { PhaseId } from '../core/phases.ts';
import { filled } from '../core/phrases.ts';
import { type Pair, rewording } from '../core/rewording.ts';
import { type PathOf, type Saying, said, sentencesOf, type Tongue } from '../core/sayings.ts';
import englishClaims from '../panel/catalogues/en/claims.json' with { type: 'json' };
import englishRecord from '../panel/catalogues/en/record.json' with { type: 'json' };
import { plainWords } from './words.ts';

export type ClaimWords = typeof englishClaims;
export type RecordWords = typeof englishRecord;
type SayingKey = PathOf<ClaimWords> | PathOf<RecordWords>;

export const ENGLISH_CLAIMS: ClaimWords = englishClaims;
/** Every alarm and every phase has a name. */
export const ENGLISH_RECORD: RecordWords & Named = englishRecord;
interface Named {
  readonly alarms: Readonly<Record<AlarmId, AlarmNames>>;
  readonly phases: Readonly<Record<PhaseId, string>>;
}
type AlarmNames = Readonly<Record<'name' | 'title' | 'remedy', string>>;

export const say = (key: SayingKey, values?: Saying['with']): Saying => ({
  say: key,
  ...(values !== undefined && { with: values }),
});

/** One of a table's sentences by an id that a record may hold from another version. */
export const sayOf = (table: string, id: string): Saying => ({ say: `${table}.${id}` });

/** An alarm of an older version has only its id. */
export const alarmNamed = (alarm: string, { alarms }: RecordWords): string =>
  (alarms as Readonly<Record<string, AlarmNames>>)[alarm]?.name ?? plainWords(alarm);

const same = (english: string): string => english;

export const ENGLISH_TONGUE: Tongue = {
  language: 'en',
  sentences: { ...sentencesOf(englishRecord), ...sentencesOf(englishClaims) },
  figure: same,
  recorded: same,
};

/** In the words of the record. */
export const inEnglish = (saying: Saying): string => said(saying, ENGLISH_TONGUE);

/** `more`: sentences of other rooms that journals hold, in English and in this language. */
export function tongueOf(claims: ClaimWords, record: RecordWords, more: readonly Pair[]): Tongue {
  const figure = figureIn(record);
  const own = sentencesOf(record);
  const pairs = Object.entries(sentencesOf(englishRecord)).flatMap(([path, english]): Pair[] =>
    IN_JOURNALS.some((table) => path.startsWith(table)) ? [[english, own[path] ?? english]] : [],
  );
  return {
    language: record.language,
    sentences: { ...own, ...sentencesOf(claims) },
    figure,
    recorded: rewording([...pairs, ...more], figure),
  };
}

/** The tables whose sentences stand in journals. */
const IN_JOURNALS = ['sentences.', 'alarms.', 'care.', 'findings.', 'ends.'];

const figureIn = ({ decimal, units }: RecordWords) => {
  const named = Object.entries(units);
  return (english: string): string =>
    named.reduce(
      (text, [unit, own]) => text.replace(unit, own).replace(spaced(unit), spaced(own)),
      english.replaceAll(/(\d)\.(?=\d)/g, `$1${decimal}`),
    );
};

/** A unit keeps to its number. */
const spaced = (unit: string): string => unit.replaceAll(' ', '\u00a0');

export const headline = (
  words: ClaimWords['headline'],
  verdict: string,
  named: readonly string[],
  join: 'but' | 'and',
): string => {
  if (named.length === 0) return verdict;
  const left = named.length - MOST_IN_HEADLINE;
  const shown = named.slice(0, MOST_IN_HEADLINE).join('; ');
  const all = left > 0 ? filled(words.more, { named: shown, left: String(left) }) : shown;
  return filled(words[join], { verdict, named: all });
};

const MOST_IN_HEADLINE = 3;
