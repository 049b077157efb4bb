/**
 * The top of the page: whether the run was simulated, the verdict with its grounds, and the job as
 * the person stated it. The verdict is about the process; the outcome is the person's finding.
 */

import type { DoseResult } from '../../report/claimed-dose.ts';
import { ENGLISH_CLAIMS } from '../../report/language.ts';
import type { ReportData } from '../../report/report-data.ts';
import { lastMeasured } from '../../report/timeline.ts';
import {
  capital,
  clockWords,
  counted,
  doseWords,
  END_WORDS,
  gaugeWords,
  kPaAbs,
  leakWords,
  OUTCOME_WORDS,
} from '../../report/words.ts';
import type { Block, Tile } from '../blocks.ts';
import { withArticle } from '../with-article.ts';
import { verdictHeadline } from './claim-rows.ts';
import { inputRowsOf } from './inputs.ts';
import { coverageWords } from './uncertainty.ts';

export const simulatedBanner = ({ simulated, board }: ReportData): Block | null =>
  simulated
    ? {
        kind: 'banner',
        text: `SIMULATED RUN, DEMO DATA. No glass was repaired: this record was made on ${withArticle(board.kind)}, and its job, resin and readings are invented.`,
      }
    : null;

/** What a dose leaves open; empty where it was met. */
function doseRemark({ portion, verdict, objections }: DoseResult): string {
  const both = portion === 'fill and pit';
  const dose = both ? 'The dose' : `The dose of the ${portion}`;
  const remarks: Readonly<Record<DoseResult['verdict'], string>> = {
    met: '',
    'not cured': both ? 'Nothing was cured.' : `The ${portion} was not cured.`,
    'not met': `${dose} was not met: resin may be soft.`,
    'not recorded': `${dose} is not recorded: the record breaks off earlier.`,
    'not shown': `${dose} is not shown: ${objections.map((id) => ENGLISH_CLAIMS.objections[id]).join('; ')}. Resin may be soft.`,
  };
  return remarks[verdict];
}

/** The person's finding, and what the doses leave open. */
export const outcomeWords = ({ outcome, doses, journal }: ReportData): string =>
  [
    outcome === null ? NO_OUTCOME[`${journal.intact === null}`] : OUTCOME_WORDS[outcome],
    ...doses.map(doseRemark),
  ]
    .filter((words) => words !== '')
    .join(' ');

const NO_OUTCOME = {
  false: 'The job ended before the person judged the break.',
  true: 'The record breaks off before the person judged the break.',
} as const;

/** 'Dose' for both together, 'Dose of the fill' where they were cured apart. */
export const doseTitle = ({ portion }: DoseResult): string =>
  portion === 'fill and pit' ? 'Dose' : `Dose of the ${portion}`;

export function verdictBox(data: ReportData): Block {
  const { verdict, end, interrupted, alarms, holds, journal } = data;
  const cut = interrupted && end.reason !== 'interrupted' ? ', record interrupted' : '';
  const seen = capital(`${counted(alarms.length, 'alarm')}, ${counted(holds.length, 'hold')}`);
  const ends = [`Job ${END_WORDS[end.reason]}${cut}: ${end.why}`, `${seen}.`];
  const breaksOff = [
    `Record breaks off ${clockWords(data.lastsS)} min after the start: ${end.why}`,
    `${seen} until then. Nothing is known of what happened later.`,
  ];
  return {
    kind: 'notice',
    grade: verdict.grade,
    title: capital(verdictHeadline(data, ENGLISH_CLAIMS)),
    lines: [outcomeWords(data), ...(journal.intact === null ? breaksOff : ends)],
    notes: [
      'This describes the process, not the strength of the glass. A mark may remain visible.',
      ...journal.remarks.map((remark) => `About the record: ${remark}`),
    ],
  };
}

export function resultTiles(data: ReportData): Block {
  const { atmospherePa, measured } = data;
  const leak = lastMeasured(measured, 'leakRatePaM3PerS');
  const reached = (name: 'vacuumReachedPa' | 'pressureReachedPa'): number | null =>
    lastMeasured(measured, name);
  return {
    kind: 'tiles',
    tiles: [
      ...data.doses.map(doseTile),
      pressureTile('Vacuum, last cycle', reached('vacuumReachedPa'), atmospherePa),
      pressureTile('Pressure, last cycle', reached('pressureReachedPa'), atmospherePa),
      {
        label: 'Seal leak',
        value: leak === null ? 'not measured' : leakWords(leak),
        notes: [],
      },
      { label: 'Time', value: `${clockWords(data.lastsS)} min`, notes: ['start to end'] },
    ],
  };
}

function doseTile(dose: DoseResult): Tile {
  const { doseJPerM2, targetJPerM2, targetSetBy, uncertainty, verdict } = dose;
  const setBy = targetSetBy === null ? '' : `, set by the ${targetSetBy}`;
  const target = targetJPerM2 === null ? [] : [`target ${doseWords(targetJPerM2)}${setBy}`];
  const unstated = doseJPerM2 > 0 ? ['no uncertainty stated'] : [];
  const least =
    uncertainty === null
      ? unstated
      : [`at least ${doseWords(uncertainty.shownJPerM2)} (${coverageWords(uncertainty)})`];
  return {
    label: doseTitle(dose),
    value: `${doseWords(doseJPerM2)}, ${verdict}`,
    notes: [...target, ...least],
  };
}

function pressureTile(label: string, pa: number | null, zeroPa: number | null): Tile {
  if (pa === null) return { label, value: 'no dwell finished', notes: [] };
  return { label, value: kPaAbs(pa), notes: zeroPa === null ? [] : [gaugeWords(pa, zeroPa)] };
}

/** Kept apart from the record, and printed only while they are kept. */
const PERSONAL_FIELDS: readonly string[] = ['technician', 'customer', 'vehicle'];

/**
 * The job sheet with every field in its own order; people named in an older journal are left out.
 */
export const jobFields = ({ inputs: { job } }: ReportData): Block => ({
  kind: 'fields',
  caption: 'As the person stated it before work began.',
  empty: 'No job sheet was given.',
  rows: inputRowsOf(job)
    .filter(({ path }) => !PERSONAL_FIELDS.includes(path))
    .map(({ label, value, unit }) => [capital(label), `${value} ${unit}`.trim()]),
});
