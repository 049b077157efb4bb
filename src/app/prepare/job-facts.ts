/**
 * What accompanies a job besides its settings: intake with its assessment and drawing, the bottles,
 * the calibrations and care in force, and the agreement. It is written into the journal's header,
 * so that it is sealed with the journal, and report and certificate can be made from the journal
 * alone. It holds no personal data, because a journal's contents stay.
 */
import { z } from 'zod';
import { DUE_STATES } from '../../care/interval.ts';
import { type DocumentFacts, NAME_NOT_KEPT } from '../../document/facts.ts';
import type { JournalHeader } from '../../journal/journal-format.ts';
import type { SetAside } from '../../report/claims/about-facts.ts';
import { type AttemptFacts, attemptIn } from '../../report/claims/attempt-facts.ts';
import { othersOfPaneIn } from '../../report/same-pane.ts';
import type { RepairExtras } from '../../store/chain/repair-body.ts';

const assessment = z.object({
  answer: z.enum(['allowed', 'not-allowed-here', 'needs-a-person']),
  ruleSets: z.array(z.object({ name: z.string(), edition: z.string() })),
  reasons: z.array(
    z.object({
      words: z.string(),
      ruleSet: z.string(),
      edition: z.string(),
      source: z.string(),
      measured: z.string(),
      limit: z.string(),
    }),
  ),
  technical: z.object({
    answer: z.enum(['can', 'cannot', 'needs-a-person']),
    reasons: z.array(z.string()),
  }),
});

const calibration = z.object({
  channel: z.string(),
  on: z.string(),
  due: z.string(),
  by: z.null(),
  reference: z.string(),
  standardUncertainty: z.string(),
  words: z.string(),
});

const setAside = z.object({
  item: z.string(),
  reason: z.string(),
  /** Objections to the job; older journals have none. */
  against: z.array(z.string()).default([]),
});

const jobFactsSchema = z.object({
  /** The day by which dates were judged, YYYY-MM-DD; older journals have none. */
  day: z.string().nullable().default(null),
  intake: z
    .object({
      sheet: z.unknown(),
      assessment: assessment.nullable(),
      drawingSvg: z.string().nullable(),
      /** Older journals have none. */
      briefSvg: z.string().nullable().default(null),
      legLimit: z.object({ longestMm: z.number(), rule: z.string() }).nullable().default(null),
    })
    .nullable(),
  /** The bottles' files as given. */
  resin: z.unknown(),
  pitResin: z.unknown(),
  calibrations: z.array(calibration).nullable(),
  care: z
    .array(
      z.object({
        what: z.string(),
        state: z.string(),
        /** Older journals have neither. */
        item: z.string().nullable().default(null),
        due: z
          .enum([...DUE_STATES, 'never-done'])
          .nullable()
          .default(null),
      }),
    )
    .nullable(),
  agreement: z.string().nullable(),
  /**
   * The checks that a person overrode, and why; the person's name is kept with the personal data.
   */
  overrides: z.array(setAside).default([]),
});
export type FactsOfJournal = Pick<DocumentFacts, 'intake' | 'calibrations' | 'care' | 'agreement'>;

export interface JobFacts extends FactsOfJournal {
  /** The attempts of this job before this one; absent in the first. */
  readonly attempt?: AttemptFacts;
  readonly day: string;
  readonly resin: unknown;
  readonly pitResin: unknown;
  readonly overrides: readonly SetAside[];
}

const NOTHING: FactsOfJournal = { intake: null, calibrations: null, care: null, agreement: null };

/** The job's facts from a journal's header; older journals have none. */
export function jobFactsIn({ about }: Pick<JournalHeader, 'about'>): FactsOfJournal {
  const parsed = jobFactsSchema.safeParse(about);
  if (!parsed.success) return NOTHING;
  const { intake, calibrations, care, agreement } = parsed.data;
  return { intake, calibrations, care, agreement };
}

/** The overrides, with the person's name while it is kept; null where none were recorded. */
export function overridesIn(
  { about, startedAt }: Pick<JournalHeader, 'about' | 'startedAt'>,
  personal: DocumentFacts['personal'],
): DocumentFacts['overrides'] {
  const parsed = jobFactsSchema.safeParse(about);
  if (!parsed.success) return null;
  const { overrideBy: by = NAME_NOT_KEPT } = personal ?? {};
  return parsed.data.overrides.map(({ item, reason }) => ({
    at: startedAt,
    what: item,
    by,
    reason,
  }));
}

/** The chain's part of it, for a job that is entered from its journal alone. */
export function extrasIn({
  about,
}: Pick<JournalHeader, 'about'>): Pick<
  RepairExtras,
  'assessment' | 'overrides' | 'attempt' | 'samePane'
> {
  const parsed = jobFactsSchema.safeParse(about);
  if (!parsed.success) return { assessment: null, overrides: [] };
  const { intake, overrides } = parsed.data;
  const attempt = attemptEntry(attemptIn(about));
  return {
    assessment: assessmentEntry(intake?.assessment ?? null),
    overrides,
    attempt,
    samePane: othersOfPaneIn(intake?.sheet),
  };
}

function attemptEntry(facts: AttemptFacts | null): NonNullable<RepairExtras['attempt']> | null {
  const before = facts?.earlier.at(-1);
  if (facts == null || before === undefined) return null;
  const { job, number, how } = facts;
  const { record, journalSha256 } = before;
  return { job, number, how, after: { record, journalSha256 } };
}

/** Names of the rule sets with their editions, and their answers. */
export const assessmentEntry = (
  assessment: NonNullable<FactsOfJournal['intake']>['assessment'],
): RepairExtras['assessment'] =>
  assessment === null
    ? null
    : {
        ruleSets: assessment.ruleSets.map(({ name, edition }) => `${name} (${edition})`),
        answer: assessment.answer,
      };
