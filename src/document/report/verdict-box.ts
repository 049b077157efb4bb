/**
 * The top of the page: whether the run was simulated, the verdict with its grounds, and the job as
 * the person stated it. The verdict is about the process; the outcome is the person's finding.
 */

import { countedForm } from '../../core/language-file.ts';
import { filled } from '../../core/phrases.ts';
import type { DoseResult } from '../../report/claimed-dose.ts';
import type { ReportData } from '../../report/report-data.ts';
import { lastMeasured } from '../../report/timeline.ts';
import {
  capital,
  clockWords,
  doseWords,
  gaugeWords,
  kPaAbs,
  leakWords,
} from '../../report/words.ts';
import type { Block, Tile } from '../blocks.ts';
import { boardNamed } from '../certificate/certificate-words.ts';
import type { PaperWords } from '../paper-words.ts';
import { verdictHeadline } from './claim-rows.ts';
import { doseTitle, fieldText, ofField } from './field-text.ts';
import { inputRowsOf } from './inputs.ts';
import { coverageText } from './uncertainty.ts';

export const simulatedBanner = (
  { simulated, board }: ReportData,
  { report: { page }, certificate }: PaperWords,
): Block | null =>
  simulated
    ? {
        kind: 'banner',
        text: filled(page.simulated, { board: boardNamed(certificate, board.kind) }),
      }
    : null;

/** The record's own time, marked where it is none that a clock on a wall showed. */
export const beganText = (
  { startedAt, simulated }: ReportData,
  { report: { page } }: PaperWords,
): string => (simulated ? filled(page.simulatedTime, { at: startedAt }) : startedAt);

/** What a dose leaves open; empty where it was met. */
function doseRemark(result: DoseResult, words: PaperWords): string {
  const { doseRemark: remarks } = words.report;
  const { portion, field = null, verdict, objections } = result;
  const dose = ofField(remarks.doses[portion], result, words);
  switch (verdict) {
    case 'met':
      return '';
    case 'not cured': {
      const where =
        field === null ? '' : filled(remarks.inField, { field: fieldText(field, words) });
      return filled(remarks[UNCURED[portion]], { where });
    }
    case 'not met':
      return filled(remarks.notMet, { dose });
    case 'not recorded':
      return filled(remarks.notRecorded, { dose });
    case 'not shown': {
      const reasons = objections.map((id) => words.claims.objections[id]).join('; ');
      return filled(remarks.notShown, { dose, reasons });
    }
  }
}

const UNCURED = {
  'fill and pit': 'nothingCured',
  fill: 'fillNotCured',
  pit: 'pitNotCured',
} as const;

/** The person's finding, and what the doses leave open. */
export function outcomeText({ outcome, doses, journal }: ReportData, words: PaperWords): string {
  const { noOutcome, unrecordedOutcome } = words.report.verdictBox;
  const without = journal.intact === null ? unrecordedOutcome : noOutcome;
  const found = outcome === null ? without : words.record.outcomes[outcome];
  return [found, ...doses.map((dose) => doseRemark(dose, words))]
    .filter((text) => text !== '')
    .join(' ');
}

export function verdictBox(data: ReportData, words: PaperWords): Block {
  const { verdict, journal } = data;
  const { process, remark: remarkOf } = words.report.verdictBox;
  return {
    kind: 'notice',
    grade: verdict.grade,
    title: capital(verdictHeadline(data, words.claims)),
    lines: [outcomeText(data, words), ...endLines(data, words)],
    notes: [
      process,
      ...journal.remarks.map((remark) =>
        filled(remarkOf, { remark: words.tongue.recorded(remark) }),
      ),
    ],
  };
}

/** How it ended, and what was raised and held until then. */
function endLines(
  { end, interrupted, alarms, holds, journal, lastsS }: ReportData,
  { report: { verdictBox: box, language }, record, tongue }: PaperWords,
): readonly string[] {
  const count = (n: number, forms: typeof box.alarms, none: string): string =>
    n === 0 ? none : filled(countedForm(forms, n, language), { count: String(n) });
  const seen = {
    alarms: count(alarms.length, box.alarms, box.noAlarm),
    holds: count(holds.length, box.holds, box.noHold),
  };
  const why = tongue.recorded(end.why);
  if (journal.intact === null) {
    const clock = clockWords(lastsS);
    return [filled(box.breaksOff, { clock, why }), filled(box.seenUntil, seen)];
  }
  const cut = interrupted && end.reason !== 'interrupted';
  const ended = filled(cut ? box.endedCut : box.ended, { how: record.ends[end.reason], why });
  return [ended, filled(box.seen, seen)];
}

export function resultTiles(data: ReportData, words: PaperWords): Block {
  const { atmospherePa, measured } = data;
  const { report, tongue } = words;
  const { tiles, said } = report;
  const leak = lastMeasured(measured, 'leakRatePaM3PerS');
  const pressureTile = (label: string, name: 'vacuumReachedPa' | 'pressureReachedPa'): Tile => {
    const pa = lastMeasured(measured, name);
    if (pa === null) return { label, value: said.noDwell, notes: [] };
    const gauge = atmospherePa === null ? [] : [tongue.figure(gaugeWords(pa, atmospherePa))];
    return { label, value: tongue.figure(kPaAbs(pa)), notes: gauge };
  };
  return {
    kind: 'tiles',
    tiles: [
      ...data.doses.map((dose) => doseTile(dose, words)),
      pressureTile(tiles.vacuum, 'vacuumReachedPa'),
      pressureTile(tiles.pressure, 'pressureReachedPa'),
      {
        label: tiles.leak,
        value: leak === null ? said.notMeasured : tongue.figure(leakWords(leak)),
        notes: [],
      },
      { label: tiles.time, value: `${clockWords(data.lastsS)} min`, notes: [tiles.startToEnd] },
    ],
  };
}

function doseTile(dose: DoseResult, words: PaperWords): Tile {
  const { tiles, setBy, doseVerdict } = words.report;
  const { doseJPerM2, targetJPerM2, targetSetBy, uncertainty, verdict } = dose;
  const written = (jPerM2: number): string => words.tongue.figure(doseWords(jPerM2));
  const target = targetJPerM2 === null ? null : { dose: written(targetJPerM2) };
  const targetText =
    target === null
      ? []
      : targetSetBy === null
        ? [filled(tiles.target, target)]
        : [filled(tiles.targetSetBy, { ...target, by: setBy[targetSetBy] })];
  const unstated = doseJPerM2 > 0 ? [tiles.noUncertainty] : [];
  const least = (shownJPerM2: number, coverage: string): string =>
    filled(tiles.atLeast, { dose: written(shownJPerM2), coverage });
  return {
    label: doseTitle(dose, words),
    value: filled(tiles.dose, { dose: written(doseJPerM2), verdict: doseVerdict[verdict] }),
    notes: [
      ...targetText,
      ...(uncertainty === null
        ? unstated
        : [least(uncertainty.shownJPerM2, coverageText(uncertainty, words))]),
    ],
  };
}

/** Kept apart from the record, and printed only while they are kept. */
const PERSONAL_FIELDS: readonly string[] = ['technician', 'customer', 'vehicle'];

/**
 * The job sheet with every field in its own order; people named in an older journal are left out.
 */
export const jobFields = ({ inputs: { job } }: ReportData, words: PaperWords): Block => ({
  kind: 'fields',
  caption: words.report.people.job,
  empty: words.report.people.noJob,
  rows: inputRowsOf(job, words)
    .filter(({ path }) => !PERSONAL_FIELDS.includes(path))
    .map(({ label, value, unit }) => [capital(label), `${value} ${unit}`.trim()]),
});
