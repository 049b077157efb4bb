/** The attempts of a job before this one: when, how far, what light. */
import { filled } from '../../core/phrases.ts';
import type { ReportData } from '../../report/report-data.ts';
import type { CountedDose } from '../../report/report-dose.ts';
import { doseWords, hoursWords, nameIn } from '../../report/words.ts';
import type { Block } from '../blocks.ts';
import type { PaperWords } from '../paper-words.ts';
import { fieldText } from './field-text.ts';

/** Left out where this is the job's first attempt. */
export function attemptsTable({ attempt }: ReportData, words: PaperWords): Block | null {
  if (attempt === null) return null;
  const { report, record, tongue } = words;
  const { attempts, said } = report;
  return {
    kind: 'table',
    wide: true,
    caption: captionOf(attempt, words),
    heads: [
      attempts.attempt,
      attempts.began,
      attempts.ended,
      attempts.endedAt,
      said.why,
      attempts.light,
      attempts.hash,
    ],
    empty: '',
    rows: attempt.earlier.map((one) => [
      `${one.number}: ${one.record}`,
      one.startedAt,
      one.endedAt,
      nameIn(record.phases, one.phase),
      tongue.recorded(one.end.why),
      one.doses.map((dose) => lightText(dose, words)).join('; '),
      one.journalSha256,
    ]),
  };
}

function captionOf(
  { number, how, entry, apartS }: NonNullable<ReportData['attempt']>,
  { report: { attempts }, record, tongue }: PaperWords,
): string {
  const goesOn =
    entry === null
      ? attempts.fromStart
      : filled(attempts.wentOn, { phase: nameIn(record.phases, entry.at) });
  const remedies = entry?.tried.map((id) => record.remedies[id]).join(', ') ?? '';
  return filled(attempts.about, {
    number: String(number),
    how: attempts.how[how],
    goesOn,
    apart: tongue.figure(hoursWords(apartS)),
    before: remedies === '' ? '' : filled(attempts.tried, { remedies }),
  });
}

function lightText(dose: CountedDose, words: PaperWords): string {
  const { portion, field = null, doseJPerM2 } = dose;
  const name = words.claims.portions[portion];
  const named = field === null ? name : `${name}, ${fieldText(field, words)}:`;
  return `${named} ${words.tongue.figure(doseWords(doseJPerM2))}`;
}
