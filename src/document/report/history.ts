/**
 * What happened, in order: alarms with cause and remedy, holds, the person's answers, and every
 * phase with its times.
 */

import { partOf } from '../../core/phases.ts';
import { filled } from '../../core/phrases.ts';
import { alarmNamed } from '../../report/language.ts';
import type { ReportData } from '../../report/report-data.ts';
import { clockWords, nameIn, secondsWords } from '../../report/words.ts';
import type { Block } from '../blocks.ts';
import type { PaperWords } from '../paper-words.ts';

const atOr = (s: number | null, words: string): string => (s === null ? words : clockWords(s));

export const alarmsTable = (
  { alarms: rows }: ReportData,
  { report: { alarms }, record, tongue }: PaperWords,
): Block => ({
  kind: 'table',
  wide: true,
  caption: alarms.about,
  heads: [
    alarms.alarm,
    alarms.raised,
    alarms.acknowledged,
    alarms.cleared,
    alarms.normal,
    alarms.cause,
    alarms.remedy,
  ],
  empty: alarms.none,
  rows: rows.map((row) => [
    filled(alarms.named, {
      alarm: alarmNamed(row.alarm, record),
      action: record.actions[row.action],
      priority: alarms.priorities[row.priority],
    }),
    clockWords(row.raisedAtS),
    atOr(row.acknowledgedAtS, alarms.notAcknowledged),
    atOr(row.returnedAtS, alarms.notCleared),
    atOr(row.clearedAtS, alarms.toTheEnd),
    tongue.recorded(row.cause),
    tongue.recorded(row.remedy),
  ]),
});

export const holdsTable = (
  { holds: rows }: ReportData,
  { report: { holds, said }, record, tongue }: PaperWords,
): Block => ({
  kind: 'table',
  wide: true,
  caption: holds.about,
  heads: [holds.from, holds.to, holds.lasted, said.why, holds.then],
  empty: holds.none,
  rows: rows.map(({ fromS, toS, why, reasons, resumed }) => [
    clockWords(fromS),
    clockWords(toS),
    secondsWords(toS - fromS),
    [
      tongue.recorded(why),
      ...reasons.map((reason) => filled(holds.reason, { reason: record.holdReasons[reason] })),
    ].join(' '),
    resumed ? holds.wentOn : holds.didNotGoOn,
  ]),
});

/** Left out where nothing was refused. */
export const refusedTable = (
  { refused: rows }: ReportData,
  { report: { refused, said }, record, tongue }: PaperWords,
): Block | null =>
  rows.length === 0
    ? null
    : {
        kind: 'table',
        caption: refused.about,
        heads: [said.at, refused.request, refused.whyNot],
        empty: '',
        rows: rows.map(({ atS, request, why }) => [
          clockWords(atS),
          nameIn(record.requests, request),
          tongue.recorded(why),
        ]),
      };

/** Left out where the break was clear without either. */
export const remediesTable = (
  { remedies: rows }: ReportData,
  { report: { remedies, cycles, said }, record }: PaperWords,
): Block | null =>
  rows.length === 0
    ? null
    : {
        kind: 'table',
        caption: remedies.about,
        heads: [said.at, cycles.cycle, said.what, remedies.done],
        empty: '',
        rows: rows.map((row) => [
          clockWords(row.atS),
          String(row.cycle),
          row.what === 'remedy'
            ? filled(remedies.remedy, { remedy: record.remedies[row.remedy] })
            : filled(remedies.freshResin, { why: record.recharges[row.why] }),
          row.what === 'recharge' || row.taken ? said.yes : remedies.declined,
        ]),
      };

export const answersTable = ({ answers: rows }: ReportData, words: PaperWords): Block => {
  const { answers, said } = words.report;
  return {
    kind: 'table',
    caption: answers.about,
    heads: [said.at, answers.asked, answers.answer],
    empty: answers.none,
    rows: rows.map((row) => [
      clockWords(row.atS),
      askedText(row, words),
      answers.given[row.answer],
    ]),
  };
};

/** The cycle is named for the questions that come back in each cycle. */
function askedText(
  { phase, cycle }: ReportData['answers'][number],
  { report: { answers, questions }, record }: PaperWords,
): string {
  const question = (questions as Readonly<Record<string, string>>)[phase];
  const asked = question ?? filled(answers.step, { phase: nameIn(record.phases, phase) });
  return ASKED_IN_CYCLES.includes(phase)
    ? filled(answers.inCycle, { asked, cycle: String(cycle) })
    : asked;
}

const ASKED_IN_CYCLES = ['ask-bubbles', 'ask-clear', 'offer-remedy', 'offer-cycle', 'ask-resin'];

export const phasesTable = (
  { phases: rows }: ReportData,
  { report: { phases, cycles, holds }, record, tongue }: PaperWords,
): Block => ({
  kind: 'table',
  caption: phases.about,
  heads: [phases.step, phases.phase, cycles.cycle, holds.from, holds.to, holds.lasted],
  empty: phases.none,
  rows: rows.map(({ step, phase, cycle, fromS, toS }) => [
    step,
    nameIn(record.phases, phase),
    partOf(phase) === 'cycles' && cycle > 0 ? String(cycle) : '–',
    clockWords(fromS),
    clockWords(toS),
    tongue.figure(`${(toS - fromS).toFixed(1)} s`),
  ]),
});
