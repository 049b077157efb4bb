/**
 * Report sections for what the journal does not know: people, assessment, calibrations, care,
 * overrides, amendments, photographs. Missing facts are printed as "not recorded", distinct from
 * "none", so that silence does not read as "all well".
 */
import type { Block, PhotoBlock } from './blocks.ts';
import type { CertificateWords } from './certificate/certificate-words.ts';
import type { AssessmentFacts, DocumentFacts } from './facts.ts';
import type { PaperWords } from './paper-words.ts';

const PEOPLE = [
  ['technician', 'Technician'],
  ['customer', 'Customer'],
  ['vehicle', 'Vehicle'],
] as const;

export function peopleFields({ personal, personalRemovedOn }: DocumentFacts): Block {
  if (personalRemovedOn !== null) {
    const text = `Personal data were removed from this record on ${personalRemovedOn}.`;
    return { kind: 'paragraph', text };
  }
  return {
    kind: 'fields',
    caption: 'Kept apart from the record, and can be removed from it.',
    empty: 'Technician, customer and vehicle: not recorded.',
    rows: PEOPLE.flatMap(([field, label]) => {
      const value = personal?.[field];
      return value === undefined ? [] : [[label, value] as const];
    }),
  };
}

export const agreementFields = (agreement: DocumentFacts['agreement']): Block => ({
  kind: 'fields',
  empty: '',
  rows: [['Agreed before work began', agreement ?? 'not recorded']],
});

export const ANSWER_WORDS: Readonly<Record<AssessmentFacts['answer'], string>> = {
  allowed: 'allowed by the rules chosen',
  'not-allowed-here': 'NOT ALLOWED HERE by the rules chosen',
  'needs-a-person': 'needs a person to decide',
};

const TECHNICAL_WORDS: Readonly<Record<AssessmentFacts['technical']['answer'], string>> = {
  can: 'can be done',
  cannot: 'cannot be done',
  'needs-a-person': 'needs a person to decide',
};

const DECIDES =
  'Local law decides, and the person who may decide under it. Check the edition in force where the vehicle is used.';

export function assessmentBlocks({ intake }: DocumentFacts, words: PaperWords): readonly Block[] {
  const drawing = paneFigure(intake?.drawingSvg ?? null, words.certificate);
  if (intake?.assessment == null) {
    const text = `No assessment against rules was recorded with this job. ${DECIDES}`;
    return [{ kind: 'paragraph', text }, ...drawing];
  }
  const { answer, ruleSets, technical, reasons } = intake.assessment;
  return [
    {
      kind: 'fields',
      empty: '',
      rows: [
        ['Rules', ANSWER_WORDS[answer]],
        ['Rule sets chosen', ruleSets.map(ruleSetWords).join('\n') || 'none'],
        ['By the kind of damage', TECHNICAL_WORDS[technical.answer]],
        ...technical.reasons.map((reason) => ['Because', reason] as const),
      ],
    },
    {
      kind: 'table',
      wide: true,
      heads: ['Rule', 'Rule set and edition', 'Measured', 'Limit', 'Where the figure comes from'],
      empty: 'No rule objected.',
      rows: reasons.map(({ words, ruleSet, edition, measured, limit, source }) => [
        words,
        `${ruleSet}, ${edition}`,
        measured,
        limit,
        source,
      ]),
    },
    { kind: 'paragraph', look: 'note', text: DECIDES },
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

export function calibrationsTable(calibrations: DocumentFacts['calibrations']): Block {
  return {
    kind: 'table',
    wide: true,
    caption: 'Calibrations in force. u: standard uncertainty.',
    heads: ['Channel', 'Calibrated', 'Due', 'Against', 'u', 'Remark'],
    empty:
      calibrations === null
        ? 'Calibrations: not recorded with this job.'
        : 'No calibration is in force.',
    rows: (calibrations ?? []).map((row) => [
      row.channel,
      row.by === null ? row.on : `${row.on}, by ${row.by}`,
      row.due,
      row.reference,
      row.standardUncertainty,
      row.words,
    ]),
  };
}

export const careTable = (care: DocumentFacts['care']): Block => ({
  kind: 'table',
  caption: 'State of care when the job began',
  heads: ['What', 'State'],
  empty: care === null ? 'State of care: not recorded with this job.' : 'No care was due.',
  rows: (care ?? []).map(({ what, state }) => [what, state]),
});

export const overridesTable = (overrides: DocumentFacts['overrides']): Block => ({
  kind: 'table',
  heads: ['At', 'What was overridden', 'By', 'Reason'],
  empty: overrides === null ? 'Overrides: not recorded with this job.' : 'Nothing was overridden.',
  rows: (overrides ?? []).map(({ at, what, by, reason }) => [at, what, by, reason]),
});

export const amendmentsTable = (amendments: DocumentFacts['amendments']): Block => ({
  kind: 'table',
  caption: 'Appended, never overwritten.',
  heads: ['At', 'Text', 'By'],
  empty:
    amendments === null ? 'Amendments: the chain of records was not read.' : 'Nothing was amended.',
  rows: (amendments ?? []).map(({ at, text, by }) => [at, text, by]),
});

const PHOTO_WORDS = { before: 'Before the repair', after: 'After the repair' } as const;

export function photoBlocks(
  { before, after }: DocumentFacts['photos'],
  highestMm: number,
  words: Readonly<Record<'before' | 'after', string>> = PHOTO_WORDS,
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
