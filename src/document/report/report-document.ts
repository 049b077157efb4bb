/**
 * The full report, for the person who checks the work: everything that the record holds. This file
 * decides the order (the verdict, then its grounds, then the rest) and leaves each part to its
 * section.
 */

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
import { doseBar, doseChart, glassChart } from './cure-charts.tsx';
import {
  alarmsTable,
  answersTable,
  holdsTable,
  phasesTable,
  refusedTable,
  remediesTable,
} from './history.ts';
import { CAUTIONS, canAndCannot, identityFields, inputFields, sumFields } from './identity.ts';
import { pressureChart } from './pressure-chart.tsx';
import { cyclesTable, limitsTable, measuredTable } from './results.ts';
import { adaptedTable, sealTable } from './seal.ts';
import { budgetsTable, doseTable } from './uncertainty.ts';
import { doseTitle, jobFields, resultTiles, simulatedBanner, verdictBox } from './verdict-box.ts';

const heading = (text: string, level: 1 | 2 | 3 = 2): Block => ({ kind: 'heading', level, text });
const note = (text: string): Block => ({ kind: 'paragraph', look: 'note', text });

export function reportDocument(facts: DocumentFacts, words: PaperWords): PageDocument {
  const { report, recordId } = facts;
  return {
    title: `Repair record, ${verdictHeadline(report, words.claims)}`,
    language: 'en',
    fit: 'flow',
    foot: `Repair record ${recordId}${report.simulated ? ', simulated run, demo data' : ''}`,
    blocks: [
      ...topBlocks(facts, words),
      ...resultBlocks(facts),
      ...historyBlocks(facts),
      ...inputs(facts),
    ],
  };
}

function topBlocks(facts: DocumentFacts, words: PaperWords): readonly Block[] {
  const { report } = facts;
  return blocksOf(
    simulatedBanner(report),
    note('Meniscus, record of a repair to laminated glass'),
    heading('Repair record', 1),
    note(`Began ${report.startedAt}${report.simulated ? ' (simulated time)' : ''}`),
    verdictBox(report),
    resultTiles(report),
    attemptsTable(report),
    heading('Claims: what was shown, and by what'),
    claimsTable(report),
    heading('What this record cannot show'),
    cannotShow,
    heading('Job and damage'),
    peopleFields(facts),
    jobFields(report),
    bottlesTable(report),
    agreementFields(facts.agreement),
    heading('Assessment: may it be repaired?'),
    ...assessmentBlocks(facts, words),
    ...photoBlocks(facts.photos, 62),
  );
}

function resultBlocks({ report: data, snapshots, ...facts }: DocumentFacts): readonly Block[] {
  return blocksOf(
    heading('Dose'),
    ...data.doses.flatMap((dose) => [
      ...(data.doses.length > 1 ? [heading(doseTitle(dose), 3)] : []),
      doseBar(dose),
      doseChart(dose, { data, snapshots }),
      doseTable(dose),
    ]),
    heading('Pressure'),
    pressureChart({ data, snapshots }),
    sealTable(data),
    cyclesTable(data),
    heading('Profile as run'),
    asRunTable(data),
    adaptedTable(data),
    heading('Limits of the profile'),
    limitsTable(data),
    glassChart({ data, snapshots }),
    heading('Measurement uncertainty'),
    budgetsTable(data),
    heading('Calibrations and care of the unit'),
    calibrationsTable(facts.calibrations),
    careTable(facts.care),
  );
}

function historyBlocks({ report: data, ...facts }: DocumentFacts): readonly Block[] {
  return blocksOf(
    heading('Alarms and holds'),
    alarmsTable(data),
    holdsTable(data),
    refusedTable(data),
    heading('Overrides'),
    overridesTable(facts.overrides),
    heading('Amendments'),
    amendmentsTable(facts.amendments),
    heading('Answers given by the person'),
    answersTable(data),
    remediesTable(data),
    heading('Single measurements'),
    measuredTable(data),
    heading('Phases'),
    phasesTable(data),
  );
}

function inputs(facts: DocumentFacts): readonly Block[] {
  const { unit, profile, extra } = facts.report.inputs;
  const sheet = facts.intake?.sheet;
  return blocksOf(
    heading('Settings in force, as given'),
    note('The complete job sheet is printed under “Job and damage”.'),
    heading('Profile', 3),
    inputFields(profile),
    heading('Unit', 3),
    inputFields(unit),
    heading('Other inputs of this run', 3),
    inputFields(extra),
    ...(sheet === undefined ? [] : [heading('Intake sheet', 3), inputFields(sheet, 'none')]),
    heading('Identity of this record'),
    identityFields(facts),
    sumFields(facts),
    heading('What this record is'),
    canAndCannot(facts.report),
    heading('Cautions'),
    CAUTIONS,
  );
}
