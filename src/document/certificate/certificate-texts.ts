/**
 * Builds the certificate's lines: each turns part of the record's data into a short text. What does
 * not fit on a line is counted, never dropped silently. Numbers are those of the report.
 */

import { numberAt } from '../../core/fields.ts';
import { countedForm } from '../../core/language-file.ts';
import { filled } from '../../core/phrases.ts';
import { said } from '../../core/sayings.ts';
import { valueAt } from '../../core/settings.ts';
import type { DoseResult } from '../../report/claimed-dose.ts';
import { shortTitleOf } from '../../report/claims/claim-table.ts';
import { OBJECTIONS } from '../../report/claims/objections.ts';
import { alarmNamed } from '../../report/language.ts';
import type { ReportData } from '../../report/report-data.ts';
import type { DoseUncertainty } from '../../report/report-dose.ts';
import { lastMeasured } from '../../report/timeline.ts';
import { capital, doseWords, kPaAbs, leakWords, nameIn } from '../../report/words.ts';
import { type AssessmentFacts, type DocumentFacts, NAME_NOT_KEPT } from '../facts.ts';
import type { PaperWords } from '../paper-words.ts';
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

export function damageText(
  { inputs: { job } }: ReportData,
  { certificate: words, tongue }: PaperWords,
): string {
  const type = textIn(job, words, 'damage', 'type');
  const sizes = DAMAGE_FIELDS.flatMap((field) => {
    const value = numberAt(job, 'damage', field);
    if (value === null) return [];
    const form = words.damageField[field];
    const sized = typeof form === 'string' ? form : countedForm(form, value, words.language);
    return [filled(sized, { value: tongue.figure(String(value)) })];
  });
  const types: Readonly<Record<string, string>> = words.damageTypes;
  return [types[type] ?? type, ...sizes].join(', ');
}

/** The dose with its uncertainty against the target, and the judgement. */
export function doseText(dose: DoseResult, { certificate: words, claims, tongue }: PaperWords) {
  const { doseJPerM2, targetJPerM2, uncertainty, verdict, objections } = dose;
  const written = (jPerM2: number): string => tongue.figure(doseWords(jPerM2));
  const target =
    targetJPerM2 === null ? words.noTarget : filled(words.target, { dose: written(targetJPerM2) });
  const counted = { dose: written(doseJPerM2), target };
  if (verdict === 'not recorded') return filled(words.doseUnrecorded, counted);
  const found =
    verdict === 'not shown'
      ? [words.doseVerdict[verdict], ...objections.map((id) => claims.objections[id])].join('; ')
      : words.doseVerdict[verdict];
  if (uncertainty === null) {
    return filled(words.dosePlain, { ...counted, shown: words.noUncertainty, found });
  }
  const shown = filled(words.shown, {
    dose: written(uncertainty.shownJPerM2),
    coverage: coverageText(uncertainty, words),
  });
  const expanded = written(uncertainty.expandedJPerM2);
  return filled(words.doseWithin, { ...counted, expanded, shown, found });
}

const coverageText = (
  { coveragePercent }: DoseUncertainty,
  { coverage, noCoverage }: CertificateWords,
): string =>
  coveragePercent === null ? noCoverage : filled(coverage, { percent: `${coveragePercent}` });

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
    filled(words.lot, { lot: textIn(job, words, field, 'lot') }),
    ...(life === null ? [] : [filled(words.expires, { day: life.expiresOn })]),
    ...(opened === null ? [] : [filled(words.opened, { day: opened })]),
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
export const shownText = (report: ReportData, { certificate, claims }: PaperWords): string =>
  report.claims
    .filter(({ state }) => state === 'shown')
    .map((claim) => shortTitleOf(claim, claims))
    .join(', ') || certificate.nothing;

/** Each reason in a sentence, and the evidence where something is known to be wrong. */
export function againstText(
  { claims }: ReportData,
  leaves: 'not shown' | 'not met',
  words: PaperWords,
): string | null {
  const named = words.claims.objections;
  const found = claims
    .flatMap(({ objections }) => objections)
    .filter(({ id }) => OBJECTIONS[id].leaves === leaves);
  if (found.length === 0) return null;
  if (leaves === 'not shown') {
    return capital([...new Set(found.map(({ id }) => named[id]))].join('; '));
  }
  return found
    .map((objection) => {
      const lines = objection.said.map((line) => said(line, words.tongue));
      const evidence = lines.map((line) => clipped(line, LONGEST.support, ''));
      return `${capital(named[objection.id])}: ${someOf(evidence, '; ', words.certificate)}`;
    })
    .join('\n');
}

/** The cycles may lie in an earlier attempt of the job; null where none of them had any. */
function earlierCycles({ attempt }: ReportData, words: CertificateWords): string | null {
  const before = attempt?.earlier.findLast(({ cycles }) => cycles.length > 0);
  return before === undefined ? null : filled(words.earlierRecord, { record: before.record });
}

export function cyclesText(report: ReportData, { certificate: words, tongue }: PaperWords) {
  const { cycles, measured } = report;
  if (cycles.length === 0) return earlierCycles(report, words) ?? words.noCycle;
  const written = (name: 'vacuumReachedPa' | 'pressureReachedPa'): string => {
    const pa = lastMeasured(measured, name);
    return pa === null ? words.notRecorded : tongue.figure(kPaAbs(pa));
  };
  return filled(words.cyclesRun, {
    count: String(cycles.length),
    vacuum: written('vacuumReachedPa'),
    pressure: written('pressureReachedPa'),
  });
}

export function sealText(report: ReportData, { certificate: words, tongue }: PaperWords): string {
  const leak = lastMeasured(report.measured, 'leakRatePaM3PerS');
  if (leak !== null) return tongue.figure(leakWords(leak));
  return earlierCycles(report, words) ?? words.notRecorded;
}

export function alarmsText(report: ReportData, words: PaperWords): string {
  const what = recordedAlarms(report, words);
  const { untilThen } = words.certificate;
  return report.journal.intact === null ? filled(untilThen, { what }) : what;
}

function recordedAlarms({ alarms, holds }: ReportData, words: PaperWords): string {
  const { noAlarm, alarmsRaised, notHeld, held, language } = words.certificate;
  if (alarms.length === 0 && holds.length === 0) return noAlarm;
  const names = [...new Set(alarms.map(({ alarm }) => alarmNamed(alarm, words.record)))];
  const count = String(holds.length);
  return filled(alarmsRaised, {
    count: String(alarms.length),
    names: someOf(names, ', ', words.certificate) || noAlarm,
    holds:
      holds.length === 0 ? notHeld : filled(countedForm(held, holds.length, language), { count }),
  });
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
  { certificate: words, record }: PaperWords,
): string {
  if (calibrations === null) return words.notRecorded;
  const named = calibrations.map(({ channel, on, due }) =>
    filled(words.calibration, { channel: nameIn(record.channels, channel), on, due }),
  );
  return someOf(named, '; ', words) || words.noCalibration;
}

export function overridesText(
  overrides: DocumentFacts['overrides'],
  { certificate: words, record }: PaperWords,
): string {
  if (overrides === null) return words.notRecorded;
  const named = overrides.map(({ what, by, reason }) => {
    const who = by === NAME_NOT_KEPT ? words.nameNotKept : by;
    return clipped(`${nameIn(record.checks, what)} (${who}): ${reason}`, LONGEST.edit, '');
  });
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
    `${last.at.slice(0, 10)}, ${last.by === NAME_NOT_KEPT ? words.nameNotKept : last.by}: ${last.text}`,
    LONGEST.edit,
    words.inReport,
  );
  return filled(words.edits, { count: String(amendments.length), last: lastEdit });
}

function someOf(parts: readonly string[], between: string, words: CertificateWords): string {
  const shown = parts.slice(0, MOST_NAMED).join(between);
  const left = parts.length - MOST_NAMED;
  if (left <= 0) return shown;
  return `${shown} ${filled(words.more, { count: String(left) })} ${words.inReport}`;
}
