/** The attempts of a job before this one: when, how far, what light. */
import { fieldWords } from '../../report/dose-part.ts';
import type { ReportData } from '../../report/report-data.ts';
import type { CountedDose } from '../../report/report-dose.ts';
import { doseWords, hoursWords, plainWords, REMEDY_WORDS } from '../../report/words.ts';
import type { Block } from '../blocks.ts';

const nameOf = ({ portion, field = null }: CountedDose): string =>
  field === null ? portion : `${portion}, ${fieldWords(field)}:`;

/** Left out where this is the job's first attempt. */
export function attemptsTable({ attempt }: ReportData): Block | null {
  if (attempt === null) return null;
  const { number, how, entry, apartS } = attempt;
  const goesOn =
    entry === null ? 'began again from the start' : `went on at ${plainWords(entry.at)}`;
  const tried = entry?.tried.map((id) => REMEDY_WORDS[id]).join(', ') ?? '';
  const before = tried === '' ? '' : ` Tried on this break before: ${tried}.`;
  return {
    kind: 'table',
    wide: true,
    caption: `This is attempt ${number} (${plainWords(how)}): it ${goesOn}, ${hoursWords(apartS)} after the last.${before} Light of an earlier attempt is not counted: this unit has no figure for what it is still worth after a pause in the dark.`,
    heads: ['Attempt', 'Began', 'Ended', 'Ended at', 'Why', 'Light', 'SHA-256 of its journal'],
    empty: '',
    rows: attempt.earlier.map((one) => [
      `${one.number}: ${one.record}`,
      one.startedAt,
      one.endedAt,
      plainWords(one.phase),
      one.end.why,
      one.doses.map((dose) => `${nameOf(dose)} ${doseWords(dose.doseJPerM2)}`).join('; '),
      one.journalSha256,
    ]),
  };
}
