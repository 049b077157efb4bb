/**
 * The full report, for the person who checks the work: everything that the record holds. This file
 * decides the order (the verdict, then its grounds, then the rest) and leaves each part to its
 * section.
 */

import { filled } from '../../core/phrases.ts';
import { type Block, blocksOf, type PageDocument } from '../blocks.ts';
import type { DocumentFacts } from '../facts.ts';
import {
  agreementFields,
  amendmentsTable,
  assessmentBlocks,
  calibrationsTable,
  careTable,
  overridesTable,
  peopleFields,
  photoBlocks,
} from '../outside-facts.ts';
import type { PaperWords } from '../paper-words.ts';
import { asRunTable } from './as-run.ts';
import { attemptsTable } from './attempts.ts';
import { bottlesTable, cannotShow, claimsTable, verdictHeadline } from './claim-rows.ts';
import { doseChart, glassChart } from './cure-charts.tsx';
import { doseBar } from './dose-bar.tsx';
import { doseTitle } from './field-text.ts';
import {
  alarmsTable,
  answersTable,
  holdsTable,
  phasesTable,
  refusedTable,
  remediesTable,
} from './history.ts';
import { identityFields, inputFields, sumFields } from './identity.ts';
import { pressureChart } from './pressure-chart.tsx';
import { cyclesTable, limitsTable, measuredTable } from './results.ts';
import { adaptedTable, sealTable } from './seal.ts';
import { budgetsTable, doseTable } from './uncertainty.ts';
import { beganText, jobFields, resultTiles, simulatedBanner, verdictBox } from './verdict-box.ts';

const heading = (text: string, level: 1 | 2 | 3 = 2): Block => ({ kind: 'heading', level, text });
const note = (text: string): Block => ({ kind: 'paragraph', look: 'note', text });
const list = (items: readonly string[]): Block => ({ kind: 'list', items });

export function reportDocument(facts: DocumentFacts, words: PaperWords): PageDocument {
  const { report, recordId } = facts;
  const { language, page } = words.report;
  const foot = report.simulated ? page.footSimulated : page.foot;
  return {
    title: filled(page.title, { verdict: verdictHeadline(report, words.claims) }),
    language,
    fit: 'flow',
    foot: filled(foot, { record: recordId }),
    blocks: [
      ...topBlocks(facts, words),
      ...resultBlocks(facts, words),
      ...historyBlocks(facts, words),
      ...inputs(facts, words),
    ],
  };
}

function topBlocks(facts: DocumentFacts, words: PaperWords): readonly Block[] {
  const { report } = facts;
  const { page, headings, photos } = words.report;
  return blocksOf(
    simulatedBanner(report, words),
    note(page.what),
    heading(page.heading, 1),
    note(filled(page.began, { at: beganText(report, words) })),
    verdictBox(report, words),
    resultTiles(report, words),
    attemptsTable(report, words),
    heading(headings.claims),
    claimsTable(report, words),
    heading(headings.cannotShow),
    cannotShow(words),
    heading(headings.job),
    peopleFields(facts, words),
    jobFields(report, words),
    bottlesTable(report, words),
    agreementFields(facts.agreement, words),
    heading(headings.assessment),
    ...assessmentBlocks(facts, words),
    ...photoBlocks(facts.photos, 62, photos),
  );
}

function resultBlocks(
  { report: data, snapshots, ...facts }: DocumentFacts,
  words: PaperWords,
): readonly Block[] {
  const { headings } = words.report;
  return blocksOf(
    heading(headings.dose),
    ...data.doses.flatMap((dose) => [
      ...(data.doses.length > 1 ? [heading(doseTitle(dose, words), 3)] : []),
      doseBar(dose, words),
      doseChart(dose, { data, snapshots, words }),
      doseTable(dose, words),
    ]),
    heading(headings.pressure),
    pressureChart({ data, snapshots, words }),
    sealTable(data, words),
    cyclesTable(data, words),
    heading(headings.asRun),
    asRunTable(data, words),
    adaptedTable(data, words),
    heading(headings.limits),
    limitsTable(data, words),
    glassChart({ data, snapshots, words }),
    heading(headings.uncertainty),
    budgetsTable(data, words),
    heading(headings.unit),
    calibrationsTable(facts.calibrations, words),
    careTable(facts.care, words),
  );
}

function historyBlocks(
  { report: data, ...facts }: DocumentFacts,
  words: PaperWords,
): readonly Block[] {
  const { headings } = words.report;
  return blocksOf(
    heading(headings.alarms),
    alarmsTable(data, words),
    holdsTable(data, words),
    refusedTable(data, words),
    heading(headings.overrides),
    overridesTable(facts.overrides, words),
    heading(headings.amendments),
    amendmentsTable(facts.amendments, words),
    heading(headings.answers),
    answersTable(data, words),
    remediesTable(data, words),
    heading(headings.measured),
    measuredTable(data, words),
    heading(headings.phases),
    phasesTable(data, words),
  );
}

function inputs(facts: DocumentFacts, words: PaperWords): readonly Block[] {
  const { unit, profile, extra } = facts.report.inputs;
  const { headings, said, inputs: about, whatItIs, cautions } = words.report;
  const sheet = facts.intake?.sheet;
  const sheetBlocks = [heading(headings.sheet, 3), inputFields(sheet, words, said.none)];
  return blocksOf(
    heading(headings.settings),
    note(about.about),
    heading(headings.profile, 3),
    inputFields(profile, words),
    heading(headings.unitFile, 3),
    inputFields(unit, words),
    heading(headings.extra, 3),
    inputFields(extra, words),
    ...(sheet === undefined ? [] : sheetBlocks),
    heading(headings.identity),
    identityFields(facts, words),
    sumFields(facts, words),
    heading(headings.whatItIs),
    list(whatItIs),
    heading(headings.cautions),
    list(cautions),
  );
}
