/**
 * Report sections for what the journal does not know: people, assessment, calibrations, care,
 * overrides, amendments, photographs. Missing facts are printed as "not recorded", distinct from
 * "none", so that silence does not read as "all well".
 */
import { filled } from '../core/phrases.ts';
import { nameIn } from '../report/words.ts';
import type { Block, PhotoBlock } from './blocks.ts';
import type { CertificateWords } from './certificate/certificate-words.ts';
import { type AssessmentFacts, type DocumentFacts, NAME_NOT_KEPT } from './facts.ts';
import type { PaperWords } from './paper-words.ts';

const PEOPLE = ['technician', 'customer', 'vehicle'] as const;

export function peopleFields(
  { personal, personalRemovedOn }: DocumentFacts,
  { report: { people }, certificate }: PaperWords,
): Block {
  if (personalRemovedOn !== null) {
    return { kind: 'paragraph', text: filled(people.removed, { day: personalRemovedOn }) };
  }
  return {
    kind: 'fields',
    caption: people.about,
    empty: people.none,
    rows: PEOPLE.flatMap((field) => {
      const value = personal?.[field];
      return value === undefined ? [] : [[certificate.labels[field], value] as const];
    }),
  };
}

export const agreementFields = (
  agreement: DocumentFacts['agreement'],
  { report: { people, said } }: PaperWords,
): Block => ({
  kind: 'fields',
  empty: '',
  rows: [[people.agreed, agreement ?? said.notRecorded]],
});

export function assessmentBlocks({ intake }: DocumentFacts, words: PaperWords): readonly Block[] {
  const { assessment: texts, said } = words.report;
  const drawing = paneFigure(intake?.drawingSvg ?? null, words.certificate);
  if (intake?.assessment == null) {
    const text = filled(texts.none, { decides: texts.decides });
    return [{ kind: 'paragraph', text }, ...drawing];
  }
  const { answer, ruleSets, technical, reasons } = intake.assessment;
  return [
    {
      kind: 'fields',
      empty: '',
      rows: [
        [texts.rules, texts.answers[answer]],
        [texts.sets, ruleSets.map(ruleSetWords).join('\n') || said.none],
        [texts.byDamage, texts.technical[technical.answer]],
        ...technical.reasons.map((reason) => [texts.because, reason] as const),
      ],
    },
    {
      kind: 'table',
      wide: true,
      heads: [texts.rule, texts.edition, texts.measured, texts.limit, texts.source],
      empty: texts.noRule,
      rows: reasons.map(({ words: rule, ruleSet, edition, measured, limit, source }) => [
        rule,
        `${ruleSet}, ${edition}`,
        measured,
        limit,
        source,
      ]),
    },
    { kind: 'paragraph', look: 'note', text: texts.decides },
    ...drawing,
  ];
}

export const ruleSetWords = ({ name, edition }: AssessmentFacts['ruleSets'][number]): string =>
  `${name} (${edition})`;

export function paneFigure(
  svg: string | null,
  { paneTitle, paneDescription }: Pick<CertificateWords, 'paneTitle' | 'paneDescription'>,
  highestMm = 175,
): readonly Block[] {
  if (svg === null) return [];
  return [
    {
      kind: 'figure',
      id: 'pane',
      svg,
      title: paneTitle,
      description: paneDescription,
      highestMm,
      foreign: true,
    },
  ];
}

export function calibrationsTable(
  rows: DocumentFacts['calibrations'],
  { report: { calibrations }, record, tongue }: PaperWords,
): Block {
  const { onBy, ...texts } = calibrations;
  return {
    kind: 'table',
    wide: true,
    caption: texts.about,
    heads: [texts.channel, texts.calibrated, texts.due, texts.against, 'u', texts.remark],
    empty: rows === null ? texts.notRecorded : texts.none,
    rows: (rows ?? []).map(({ channel, on, by, due, reference, ...row }) => [
      nameIn(record.channels, channel),
      by === null ? on : filled(onBy, { on, by }),
      due,
      reference,
      tongue.figure(row.standardUncertainty),
      tongue.recorded(row.words),
    ]),
  };
}

export const careTable = (
  rows: DocumentFacts['care'],
  { report: { care, said }, record, tongue }: PaperWords,
): Block => ({
  kind: 'table',
  caption: care.about,
  heads: [said.what, care.state],
  empty: rows === null ? care.notRecorded : care.none,
  rows: (rows ?? []).map(({ item, what, state }) => [
    item === null ? tongue.recorded(what) : nameIn(record.care, item),
    tongue.recorded(state),
  ]),
});

export const overridesTable = (
  rows: DocumentFacts['overrides'],
  { report: { overrides, said }, record, certificate }: PaperWords,
): Block => ({
  kind: 'table',
  heads: [overrides.at, overrides.what, said.by, overrides.reason],
  empty: rows === null ? overrides.notRecorded : overrides.none,
  rows: (rows ?? []).map(({ at, what, by, reason }) => [
    at,
    nameIn(record.checks, what),
    by === NAME_NOT_KEPT ? certificate.nameNotKept : by,
    reason,
  ]),
});

export const amendmentsTable = (
  rows: DocumentFacts['amendments'],
  { report: { amendments, overrides, said } }: PaperWords,
): Block => ({
  kind: 'table',
  caption: amendments.about,
  heads: [overrides.at, amendments.text, said.by],
  empty: rows === null ? amendments.unread : amendments.none,
  rows: (rows ?? []).map(({ at, text, by }) => [at, text, by]),
});

export function photoBlocks(
  { before, after }: DocumentFacts['photos'],
  highestMm: number,
  words: Readonly<Record<'before' | 'after', string>>,
): readonly Block[] {
  const photos = [
    [before, words.before],
    [after, words.after],
  ] as const;
  const given = photos.flatMap(([photo, caption]): readonly PhotoBlock[] =>
    photo === null ? [] : [{ kind: 'photo', ...photo, description: caption, caption, highestMm }],
  );
  if (given.length < 2) return given;
  return [{ kind: 'columns', columns: given.map((photo) => ({ share: 1 / 2, blocks: [photo] })) }];
}
