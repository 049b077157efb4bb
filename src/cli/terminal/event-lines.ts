/**
 * One line of plain text for each event of a job, for terminals without a live panel and for logs.
 * The words are those of the job's language; English calls steps and alarms by their ids. Only the
 * events that a person needs have a line: the journal keeps them all.
 */

import type { JobWords } from '../../app/prepare/terminal-words.ts';
import type { DoseSoFar } from '../../control/procedure.ts';
import type { Event } from '../../core/events.ts';
import type { Portion } from '../../core/measurements.ts';
import { STEP_NUMBERS } from '../../core/phases.ts';
import { filled } from '../../core/phrases.ts';
import { escapedValue } from '../../core/plain-text.ts';
import { kPaFromPa } from '../../core/units.ts';
import { joulesPerCm2, nameIn } from '../../report/words.ts';
import { clockText, measuredLine } from './measured-lines.ts';

/** `null` for events that would only clutter a terminal. */
export function eventLine(event: Event, words: JobWords): string | null {
  const line = lineOf(event, words);
  return line === null ? null : escapedValue(`${clockText(event.timeS)}  ${line}`);
}

export function doseLine(
  { timeS, doseJPerM2, targetJPerM2 }: DoseSoFar,
  { terminal, tongue }: JobWords,
): string {
  const joules = (j: number): string => tongue.figure(joulesPerCm2(j).toFixed(2));
  const values = { dose: joules(doseJPerM2), target: joules(targetJPerM2) };
  return `${clockText(timeS)} ${filled(terminal.events.doseSoFar, values)}`;
}

/** Steps and alarms by id, as the journal has them, or by the names of the language. */
const called = ({ terminal }: JobWords, id: string, name: string | undefined): string =>
  terminal.called === 'by-id' ? id : (name ?? id);

function lineOf(event: Event, words: JobWords): string | null {
  const { terminal, record, tongue } = words;
  const { events } = terminal;
  switch (event.kind) {
    case 'batch':
      return filled(events.batch, {
        from: terminal.batch[event.from],
        to: terminal.batch[event.to],
        why: tongue.recorded(event.why),
      });
    case 'phase':
      return filled(event.cycle > 0 ? events.phaseCycle : events.phase, {
        step: STEP_NUMBERS[event.phase],
        phase: called(words, event.phase, record.phases[event.phase]),
        cycle: String(event.cycle),
      });
    case 'answer':
      return events[event.answer];
    case 'hold-reason':
      return filled(events.holdReason, { reason: record.holdReasons[event.reason] });
    case 'remedy':
      return filled(event.taken ? events.remedyTaken : events.remedyDeclined, {
        remedy: record.remedies[event.remedy],
      });
    case 'recharge':
      return filled(events.recharge, {
        cycle: String(event.cycle),
        why: record.recharges[event.why],
      });
    case 'moved': {
      const place = { number: String(event.to), of: String(event.of) };
      return filled(event.what === 'lamp' ? events.lampMoved : events.injectorMoved, place);
    }
    case 'measured':
      return filled(events.measured, { what: measuredLine(event, words) });
    case 'alarm':
      return alarmLine(event, words);
    case 'seal-finding':
    case 'adapted':
    case 'gap-failed':
      return findingLine(event, words);
    case 'refused':
      return filled(events.refused, {
        request: nameIn(record.requests, event.request),
        why: tongue.recorded(event.why),
      });
    case 'end':
      return filled(events.end, { reason: terminal.endReasons[event.reason] });
    // Only guided procedures emit it; they have lines of their own.
    case 'step':
    case 'point':
      return null;
  }
}

function alarmLine(
  { alarm: id, to, action, cause, remedy }: Extract<Event, { kind: 'alarm' }>,
  words: JobWords,
): string {
  const { terminal, tongue, record } = words;
  const alarm = called(words, id, record.alarms[id].name);
  return to === 'unacknowledged'
    ? filled(terminal.events.alarmRaised, {
        alarm,
        action: record.actions[action],
        cause: tongue.recorded(cause),
        remedy: tongue.recorded(remedy),
      })
    : filled(terminal.events.alarmIs, { alarm, state: terminal.alarmStates[to] });
}

type Finding = Extract<Event, { kind: 'seal-finding' | 'adapted' | 'gap-failed' }>;

function findingLine(event: Finding, { terminal, record, tongue }: JobWords): string {
  const { events } = terminal;
  const kPa = (pa: number): string => tongue.figure(kPaFromPa(pa).toFixed(1));
  switch (event.kind) {
    case 'seal-finding':
      return filled(events.sealFinding, {
        finding: record.findings[event.finding],
        why: tongue.recorded(event.why),
      });
    case 'adapted':
      return filled(events.adapted, {
        what: record.adapted[event.what],
        asked: kPa(event.askedPa),
        given: kPa(event.givenPa),
        why: tongue.recorded(event.why),
      });
    case 'gap-failed':
      return filled(events.gapFailed, {
        portion: portionText(event.portion, terminal.portions),
        why: terminal.gaps[event.why],
        lost: tongue.figure(joulesPerCm2(event.lostJPerM2).toFixed(2)),
      });
  }
}

const portionText = (
  portion: Portion | null,
  portions: JobWords['terminal']['portions'],
): string => (portion === null ? '' : portions[portion]);
