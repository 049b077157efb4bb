/**
 * The customer's certificate: one page that states what was done, with what result, and what it
 * does not promise. This file decides the content and its order. Words come from one table, numbers
 * from the report's data, and the renderer finds a text size that fits. Long texts are cut here and
 * stand in full in the report.
 */

import { filled } from '../../core/phrases.ts';
import type { DoseResult } from '../../report/claimed-dose.ts';
import { inField } from '../../report/claims/claim-table.ts';
import { headline } from '../../report/language.ts';
import { othersOfPaneIn } from '../../report/same-pane.ts';
import { joinOf, objectionsBeside } from '../../report/verdict.ts';
import { clockWords } from '../../report/words.ts';
import { type Block, blocksOf, type FieldsBlock, type PageDocument } from '../blocks.ts';
import type { DocumentFacts } from '../facts.ts';
import { paneFigure, photoBlocks } from '../outside-facts.ts';
import type { PaperWords } from '../paper-words.ts';
import { qrSvg } from '../qr-svg.ts';
import { codeOf } from '../record-code.ts';
import {
  againstText,
  alarmsText,
  calibrationsText,
  clipped,
  cyclesText,
  damageText,
  doseText,
  editsText,
  overridesText,
  pitResinText,
  resinText,
  rulesText,
  sealText,
  shownText,
  technicalText,
  textIn,
} from './certificate-texts.ts';
import { boardNamed, type CertificateWords, kindNamed } from './certificate-words.ts';

const LONGEST = { why: 160, agreement: 600, name: 60 } as const;
const HIGHEST_MM = { pane: 92, photo: 34, code: 25 } as const;

export function certificate(facts: DocumentFacts, papers: PaperWords): PageDocument {
  const { report, recordId } = facts;
  const words = papers.certificate;
  const simulated = filled(words.simulated, { board: boardNamed(words, report.board.kind) });
  const name = `${words.labels.title} ${recordId}`;
  return {
    title: `${name}, ${headlineText(report, papers)}`,
    language: words.language,
    fit: 'one-page',
    foot: report.simulated ? `${name}. ${simulated}` : name,
    blocks: blocksOf(
      report.simulated ? { kind: 'banner', text: simulated } : null,
      headRow(facts, words),
      verdictNotice(facts, papers),
      middleRow(facts, papers),
      groundsFields(facts, papers),
      { kind: 'heading', level: 3, text: words.labels.read },
      { kind: 'list', items: [...words.disclosure, cannotShowText(papers)] },
      agreedFields(facts, words),
      {
        kind: 'signatures',
        labels: [words.labels.signTechnician, words.labels.signCustomer],
      },
      { kind: 'paragraph', look: 'note', text: `${words.compare} ${codeOf(facts)}` },
    ),
  };
}

/** A row only where there is a text. */
const given = (label: string, text: string | null): FieldsBlock['rows'] =>
  text === null ? [] : [[label, text]];

function headRow(facts: DocumentFacts, words: CertificateWords): Block {
  const { report, recordId } = facts;
  const { labels } = words;
  const began = report.startedAt.replace(/^(\S{10})T(\d\d:\d\d)\S*Z$/, '$1 $2 UTC');
  const simulated = report.simulated ? ` (${words.simulatedTime})` : '';
  const lasted = report.journal.intact === null ? words.recordedFor : words.lasted;
  const rows: FieldsBlock['rows'] = [
    [labels.record, recordId],
    [labels.began, `${began}${simulated}, ${filled(lasted, { clock: clockWords(report.lastsS) })}`],
    [labels.vehicle, personText(facts, 'vehicle', words)],
    [labels.customer, personText(facts, 'customer', words)],
    [labels.technician, personText(facts, 'technician', words)],
  ];
  const code = codeOf(facts);
  return {
    kind: 'columns',
    columns: [
      {
        share: 0.82,
        blocks: [
          { kind: 'heading', level: 1, text: labels.title },
          { kind: 'paragraph', look: 'note', text: labels.under },
          { kind: 'fields', labelShare: 0.18, empty: '', rows },
        ],
      },
      {
        share: 0.18,
        blocks: [
          {
            kind: 'figure',
            id: 'code',
            svg: qrSvg(code),
            title: labels.code,
            description: code,
            highestMm: HIGHEST_MM.code,
            foreign: true,
          },
        ],
      },
    ],
  };
}

function personText(
  { personal, personalRemovedOn }: DocumentFacts,
  field: 'vehicle' | 'customer' | 'technician',
  words: CertificateWords,
): string {
  if (personalRemovedOn !== null) return filled(words.removedOn, { day: personalRemovedOn });
  return clipped(personal?.[field] ?? words.notRecorded, LONGEST.name, '');
}

const headlineText = ({ verdict, claims }: DocumentFacts['report'], words: PaperWords): string =>
  headline(
    words.claims.headline,
    words.certificate.process[verdict.process],
    objectionsBeside(verdict, claims).map(({ id }) => words.claims.objections[id]),
    joinOf(verdict.process),
  );

function cannotShowText({ certificate: { cannotShow, or }, claims }: PaperWords): string {
  const short = Object.values(claims.cannotShow).map((row) => row.short);
  const list = short.slice(0, -1).join(', ');
  return filled(cannotShow, { list: filled(or, { list, last: short.at(-1) ?? '' }) });
}

function verdictNotice({ report }: DocumentFacts, papers: PaperWords): Block {
  const { certificate: words, tongue } = papers;
  const { verdict, outcome, end, dose, journal, lastsS } = report;
  const incomplete = journal.intact === null;
  const why =
    end.reason === 'completed'
      ? ''
      : ` ${clipped(endedText(report, tongue), LONGEST.why, words.inReport)}`;
  const none = incomplete ? words.unrecordedOutcome : words.noOutcome;
  return {
    kind: 'notice',
    grade: verdict.grade,
    title: headlineText(report, papers),
    lines: [
      `${outcome === null ? none : words.outcome[outcome]} ${words.doseRemark[dose.verdict]}`.trim(),
      incomplete
        ? filled(words.breaksOff, { clock: clockWords(lastsS) })
        : `${words.end[end.reason]}${why}`,
    ],
    notes: journal.remarks.map((remark) =>
      clipped(tongue.recorded(remark), LONGEST.why, words.inReport),
    ),
  };
}

function doseLabel({ portion, field = null }: DoseResult, papers: PaperWords): string {
  const what = papers.certificate.labels[DOSE_LABELS[portion]];
  return field === null ? what : inField(what, field, papers.claims);
}

/** Why it ended; what to do at the unit then was for the technician, and stands in the report. */
function endedText({ end, alarms }: DocumentFacts['report'], tongue: PaperWords['tongue']): string {
  const said = tongue.recorded(end.why);
  const remedies = alarms.map(({ remedy }) => tongue.recorded(remedy));
  const asked = remedies.find((remedy) => said.endsWith(remedy)) ?? '';
  return said.slice(0, said.length - asked.length).trimEnd();
}

function middleRow(facts: DocumentFacts, papers: PaperWords): Block {
  const { report } = facts;
  const words = papers.certificate;
  const { labels } = words;
  const others = othersOfPaneIn(facts.intake?.sheet);
  const { briefSvg, drawingSvg } = facts.intake ?? { briefSvg: null, drawingSvg: null };
  const drawing = paneFigure(briefSvg ?? drawingSvg, words, HIGHEST_MM.pane);
  const done: Block = {
    kind: 'fields',
    labelShare: 0.26,
    empty: '',
    rows: [
      [labels.damage, damageText(report, papers)],
      ...given(labels.samePane, others.length === 0 ? null : others.join(', ')),
      ...report.doses.map((dose) => [doseLabel(dose, papers), doseText(dose, papers)] as const),
      [labels.resin, resinText(report, words)],
      ...given(labels.pitResin, pitResinText(report, words)),
      [labels.profile, textIn(report.inputs.profile, words, 'name')],
      [labels.cycles, cyclesText(report, papers)],
      [labels.seal, sealText(report, papers)],
    ],
  };
  const heading: Block = { kind: 'heading', level: 3, text: labels.done };
  const photos = photoBlocks(facts.photos, HIGHEST_MM.photo, words.labels);
  if (drawing.length === 0) {
    const none: Block = { kind: 'paragraph', look: 'note', text: words.noDrawing };
    return { kind: 'columns', columns: [{ share: 1, blocks: [heading, done, none, ...photos] }] };
  }
  return {
    kind: 'columns',
    columns: [
      { share: 0.4, blocks: [heading, done, ...photos] },
      {
        share: 0.6,
        blocks: [
          { kind: 'heading', level: 3, text: labels.pane },
          ...drawing,
          { kind: 'paragraph', look: 'note', text: words.smallDrawing },
        ],
      },
    ],
  };
}

const DOSE_LABELS = { 'fill and pit': 'dose', fill: 'doseOfFill', pit: 'doseOfPit' } as const;

function groundsFields(facts: DocumentFacts, papers: PaperWords): Block {
  const words = papers.certificate;
  const { labels } = words;
  const { board, meniscus } = facts.report;
  return {
    kind: 'fields',
    labelShare: 0.2,
    empty: '',
    rows: [
      ...given(labels.notMet, againstText(facts.report, 'not met', papers)),
      ...given(labels.notShown, againstText(facts.report, 'not shown', papers)),
      [labels.shown, shownText(facts.report, papers)],
      [labels.rules, rulesText(facts.intake, words)],
      ...(facts.intake?.assessment == null
        ? []
        : [[labels.technical, technicalText(facts.intake.assessment, words)] as const]),
      [labels.calibrations, calibrationsText(facts.calibrations, papers)],
      [labels.alarms, alarmsText(facts.report, papers)],
      [labels.overrides, overridesText(facts.overrides, papers)],
      [labels.edits, editsText(facts.amendments, words)],
      [
        labels.unit,
        `${kindNamed(words, board.kind)} ${board.serial}, ${board.firmware}; Meniscus ${meniscus}`,
      ],
    ],
  };
}

function agreedFields({ agreement }: DocumentFacts, words: CertificateWords): Block {
  const text =
    agreement === null ? words.notRecorded : clipped(agreement, LONGEST.agreement, words.inReport);
  return { kind: 'fields', labelShare: 0.2, empty: '', rows: [[words.labels.agreed, text]] };
}
