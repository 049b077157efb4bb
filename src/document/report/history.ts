/**
 * What happened, in order: alarms with cause and remedy, holds, the person's answers, and every
 * phase with its times.
 */

import type { ReportData } from '../../report/report-data.ts';
import {
  clockWords,
  HOLD_REASON_WORDS,
  plainWords,
  QUESTION_WORDS,
  RECHARGE_WORDS,
  REMEDY_WORDS,
  secondsWords,
} from '../../report/words.ts';
import type { Block } from '../blocks.ts';

const atOr = (s: number | null, words: string): string => (s === null ? words : clockWords(s));

export const alarmsTable = ({ alarms }: ReportData): Block => ({
  kind: 'table',
  wide: true,
  caption:
    'Times in min:s since the start. Hold: makes safe and waits for a person. Abort: makes safe and ends the job. Warn: informs.',
  heads: ['Alarm', 'Raised', 'Acknowledged', 'Cleared', 'Normal', 'Cause', 'Remedy shown'],
  empty: 'No alarm was raised.',
  rows: alarms.map((row) => [
    `${plainWords(row.alarm)} (${row.action}, ${row.priority} priority)`,
    clockWords(row.raisedAtS),
    atOr(row.acknowledgedAtS, 'not acknowledged'),
    atOr(row.returnedAtS, 'not cleared'),
    atOr(row.clearedAtS, 'to the end'),
    row.cause,
    row.remedy,
  ]),
});

export const holdsTable = ({ holds }: ReportData): Block => ({
  kind: 'table',
  wide: true,
  caption: 'Holds',
  heads: ['From, min:s', 'To, min:s', 'Lasted', 'Why', 'Then'],
  empty: 'The job was never held.',
  rows: holds.map(({ fromS, toS, why, reasons, resumed }) => [
    clockWords(fromS),
    clockWords(toS),
    secondsWords(toS - fromS),
    [why, ...reasons.map((reason) => `Reason given: ${HOLD_REASON_WORDS[reason]}.`)].join(' '),
    resumed ? 'went on' : 'did not go on',
  ]),
});

/** Left out where nothing was refused. */
export const refusedTable = ({ refused }: ReportData): Block | null =>
  refused.length === 0
    ? null
    : {
        kind: 'table',
        caption: 'Requests that were refused',
        heads: ['At, min:s', 'Request', 'Why not'],
        empty: '',
        rows: refused.map(({ atS, request, why }) => [clockWords(atS), request, why]),
      };

/** Left out where the break was clear without either. */
export const remediesTable = ({ remedies }: ReportData): Block | null =>
  remedies.length === 0
    ? null
    : {
        kind: 'table',
        caption:
          'Remedies offered for a break that was not clear, by the cycle before them; fresh resin, by the cycle after it. A person says what was done: the unit did not see it.',
        heads: ['At, min:s', 'Cycle', 'What', 'Done'],
        empty: '',
        rows: remedies.map((row) => [
          clockWords(row.atS),
          String(row.cycle),
          row.what === 'remedy'
            ? `Remedy: ${REMEDY_WORDS[row.remedy]}`
            : `Fresh resin: ${RECHARGE_WORDS[row.why]}`,
          row.what === 'recharge' || row.taken ? 'yes' : 'declined',
        ]),
      };

export const answersTable = ({ answers }: ReportData): Block => ({
  kind: 'table',
  caption: 'For a step without a question, YES means that it was done.',
  heads: ['At, min:s', 'Asked', 'Answer'],
  empty: 'No answer was given.',
  rows: answers.map(({ atS, phase, cycle, answer }) => [
    clockWords(atS),
    `${QUESTION_WORDS[phase] ?? `Step done: ${plainWords(phase)}`}${cycleWords(phase, cycle)}`,
    answer.toUpperCase(),
  ]),
});

/** The cycle is named for the questions that come back in each cycle. */
const cycleWords = (phase: string, cycle: number): string =>
  ['ask-bubbles', 'ask-clear', 'offer-remedy', 'offer-cycle', 'ask-resin'].includes(phase)
    ? ` (cycle ${cycle})`
    : '';

export const phasesTable = ({ phases }: ReportData): Block => ({
  kind: 'table',
  caption: 'Step numbers are those of the display. Time spent held belongs to no phase.',
  heads: ['Step', 'Phase', 'Cycle', 'From, min:s', 'To, min:s', 'Lasted'],
  empty: 'No phase was begun.',
  rows: phases.map(({ step, phase, cycle, fromS, toS }) => [
    step,
    plainWords(phase),
    step.startsWith('5.') && cycle > 0 ? String(cycle) : '–',
    clockWords(fromS),
    clockWords(toS),
    `${(toS - fromS).toFixed(1)} s`,
  ]),
});
