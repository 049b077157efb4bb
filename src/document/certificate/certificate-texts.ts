/**
 * Builds the certificate's lines: each turns part of the record's data into a short text. What does
 * not fit on a line is counted, never dropped silently. Numbers are those of the report.
 */

import { numberAt } from '../../core/fields.ts';
import { valueAt } from '../../core/settings.ts';
import type { DoseResult } from '../../report/claimed-dose.ts';
import { OBJECTIONS } from '../../report/claims/objections.ts';
import type { ReportData } from '../../report/report-data.ts';
import { lastMeasured } from '../../report/timeline.ts';
import { capital, doseWords, kPaAbs, leakWords, plainWords } from '../../report/words.ts';
import type { AssessmentFacts, DocumentFacts } from '../facts.ts';
import { coverageWords } from '../report/uncertainty.ts';
import { type CertificateWords, DAMAGE_FIELDS } from './certificate-words.ts';

const MOST_NAMED = 4;
const LONGEST = { part: 60, edit: 110, support: 150 } as const;

/** Cuts a text that is too long at a word, and appends a note that it was cut. */
export function clipped(text: string, most: number, remark: string): string {
  const line = text.replaceAll(/\s+/g, ' ').trim();
  if (line.length <= most) return line;
  const room = line.slice(0, most - 1);
  const cut = room.lastIndexOf(' ') > most / 2 ? room.slice(0, room.lastIndexOf(' ')) : room;
  return `${cut.replace(/[.,;:]+$/, '')}… ${remark}`.trim();
}

/** A text from a settings file, as given. */
export function textIn(file: unknown, words: CertificateWords, ...path: readonly string[]): string {
  const found = valueAt(file, path);
  return typeof found === 'string' ? clipped(found, LONGEST.part, '') : words.notRecorded;
}

export function damageText({ inputs: { job } }: ReportData, words: CertificateWords): string {
  const type = textIn(job, words, 'damage', 'type');
  const sizes = DAMAGE_FIELDS.flatMap((field) => {
    const value = numberAt(job, 'damage', field);
    return value === null ? [] : [words.damageField[field](value)];
  });
  return [words.damageTypes[type] ?? type, ...sizes].join(', ');
}

/** The dose with its uncertainty against the target, and the judgement. */
export function doseText(dose: DoseResult, words: CertificateWords): string {
  const { doseJPerM2, targetJPerM2, uncertainty, verdict, objections } = dose;
  const shown =
    uncertainty === null
      ? words.noUncertainty
      : `± ${doseWords(uncertainty.expandedJPerM2)}: ${words.shown(
          doseWords(uncertainty.shownJPerM2),
          coverageWords(uncertainty),
        )}`;
  const target = targetJPerM2 === null ? words.noTarget : words.target(doseWords(targetJPerM2));
  if (verdict === 'not recorded') return words.doseUnrecorded(doseWords(doseJPerM2), target);
  const join = uncertainty === null ? ', ' : ' ';
  const found =
    verdict === 'not shown'
      ? [words.doseVerdict[verdict], ...objections.map((id) => words.objection[id])].join('; ')
      : words.doseVerdict[verdict];
  return `${doseWords(doseJPerM2)}${join}${shown}; ${target}: ${found}`;
}

/** Name and lot from the job sheet, and the bottle's dates where its file was given. */
function bottleText(
  { inputs: { job }, bottles }: ReportData,
  use: 'fill' | 'pit',
  words: CertificateWords,
): string {
  const field = use === 'fill' ? 'resin' : 'pitResin';
  const life = bottles[use]?.shelfLife ?? null;
  const opened = life?.openedOn ?? null;
  return [
    textIn(job, words, field, 'name'),
    words.lot(textIn(job, words, field, 'lot')),
    ...(life === null ? [] : [words.expires(life.expiresOn)]),
    ...(opened === null ? [] : [words.opened(opened)]),
  ].join(', ');
}

export const resinText = (report: ReportData, words: CertificateWords): string =>
  bottleText(report, 'fill', words);

/** Null where the pit was filled with the fill's resin. */
export function pitResinText(report: ReportData, words: CertificateWords): string | null {
  if (valueAt(report.inputs.job, ['pitResin']) != null) return bottleText(report, 'pit', words);
  return report.doses.some(({ portion }) => portion === 'pit') ? words.notRecorded : null;
}

/** What was shown, by name; the report says by what. */
export const shownText = ({ claims }: ReportData, words: CertificateWords): string =>
  claims
    .filter(({ state }) => state === 'shown')
    .map(({ id, portion, field = null }) => {
      const named = portion === null ? words.claim[id] : words.claimOf(words.claim[id], portion);
      return field === null ? named : words.inField(named, field);
    })
    .join(', ') || words.nothing;

/** Each reason in a sentence, and the evidence where something is known to be wrong. */
export function againstText(
  { claims }: ReportData,
  leaves: 'not shown' | 'not met',
  words: CertificateWords,
): string | null {
  const found = claims
    .flatMap(({ objections }) => objections)
    .filter(({ id }) => OBJECTIONS[id].leaves === leaves);
  if (found.length === 0) return null;
  if (leaves === 'not shown') {
    return capital([...new Set(found.map(({ id }) => words.objection[id]))].join('; '));
  }
  return found
    .map(({ id, lines }) => {
      const evidence = lines.map((line) => clipped(line, LONGEST.support, ''));
      return `${capital(words.objection[id])}: ${someOf(evidence, '; ', words)}`;
    })
    .join('\n');
}

/** The cycles may lie in an earlier attempt of the job; null where none of them had any. */
function earlierCycles({ attempt }: ReportData, words: CertificateWords): string | null {
  const before = attempt?.earlier.findLast(({ cycles }) => cycles.length > 0);
  return before === undefined ? null : words.earlierRecord(before.record);
}

export function cyclesText(report: ReportData, words: CertificateWords): string {
  const { cycles, measured } = report;
  if (cycles.length === 0) return earlierCycles(report, words) ?? words.noCycle;
  const written = (name: 'vacuumReachedPa' | 'pressureReachedPa'): string => {
    const pa = lastMeasured(measured, name);
    return pa === null ? words.notRecorded : kPaAbs(pa);
  };
  return words.cyclesRun(cycles.length, written('vacuumReachedPa'), written('pressureReachedPa'));
}

export function sealText(report: ReportData, words: CertificateWords): string {
  const leak = lastMeasured(report.measured, 'leakRatePaM3PerS');
  return leak === null ? (earlierCycles(report, words) ?? words.notRecorded) : leakWords(leak);
}

export function alarmsText(report: ReportData, words: CertificateWords): string {
  const text = recordedAlarms(report, words);
  return report.journal.intact === null ? words.untilThen(text) : text;
}

function recordedAlarms({ alarms, holds }: ReportData, words: CertificateWords): string {
  if (alarms.length === 0 && holds.length === 0) return words.noAlarm;
  const names = [...new Set(alarms.map(({ alarm }) => plainWords(alarm)))];
  return words.alarmsRaised(
    alarms.length,
    someOf(names, ', ', words) || words.noAlarm,
    holds.length,
  );
}

export function rulesText(intake: DocumentFacts['intake'], words: CertificateWords): string {
  if (intake?.assessment == null) return words.noAssessment;
  const { answer, ruleSets } = intake.assessment;
  const named = ruleSets.map(
    ({ name, edition }) =>
      `${clipped(name, LONGEST.part, '')} (${clipped(edition, LONGEST.part, '')})`,
  );
  return `${words.answer[answer]}: ${someOf(named, '; ', words) || words.notRecorded}`;
}

export const technicalText = ({ technical }: AssessmentFacts, words: CertificateWords): string =>
  words.technicalAnswer[technical.answer];

export function calibrationsText(
  calibrations: DocumentFacts['calibrations'],
  words: CertificateWords,
): string {
  if (calibrations === null) return words.notRecorded;
  const named = calibrations.map(({ channel, on, due }) => words.calibration(channel, on, due));
  return someOf(named, '; ', words) || words.noCalibration;
}

export function overridesText(
  overrides: DocumentFacts['overrides'],
  words: CertificateWords,
): string {
  if (overrides === null) return words.notRecorded;
  const named = overrides.map(({ what, by, reason }) =>
    clipped(`${plainWords(what)} (${by}): ${reason}`, LONGEST.edit, ''),
  );
  return someOf(named, '; ', words) || words.noOverride;
}

export function editsText(
  amendments: DocumentFacts['amendments'],
  words: CertificateWords,
): string {
  if (amendments === null) return words.editsUnread;
  const last = amendments.at(-1);
  if (last === undefined) return words.noEdit;
  const lastEdit = clipped(
    `${last.at.slice(0, 10)}, ${last.by}: ${last.text}`,
    LONGEST.edit,
    words.inReport,
  );
  return words.edits(amendments.length, lastEdit);
}

function someOf(parts: readonly string[], between: string, words: CertificateWords): string {
  const shown = parts.slice(0, MOST_NAMED).join(between);
  const left = parts.length - MOST_NAMED;
  return left > 0 ? `${shown} ${words.more(left)} ${words.inReport}` : shown;
}
