/**
 * What goes with a job beside its settings: intake with its assessment and drawing, the bottles, the
 * calibrations and care in force, and what was agreed. It is written into the journal's header, so
 * that it is sealed with the journal and report and certificate can be made from that alone. No
 * personal data: what is in a journal stays.
 */
import { z } from 'zod';
import type { DocumentFacts } from '../../document/facts.ts';
import type { JournalHeader } from '../../journal/journal-format.ts';
import type { SetAside } from '../../report/reservation-facts.ts';
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
  /** What spoke against the job; journals from before have none. */
  against: z.array(z.string()).default([]),
});

const jobAboutSchema = z.object({
  /** By which dates were judged, YYYY-MM-DD; journals from before have none. */
  day: z.string().nullable().default(null),
  intake: z
    .object({
      sheet: z.unknown(),
      assessment: assessment.nullable(),
      drawingSvg: z.string().nullable(),
      /** Journals from before have none. */
      briefSvg: z.string().nullable().default(null),
    })
    .nullable(),
  /** Files of the bottles as given. */
  resin: z.unknown(),
  pitResin: z.unknown(),
  calibrations: z.array(calibration).nullable(),
  care: z.array(z.object({ what: z.string(), state: z.string() })).nullable(),
  agreement: z.string().nullable(),
  /** What a person set aside, and why; who did is kept with the personal data. */
  overrides: z.array(setAside).default([]),
});
export type FactsOfJournal = Pick<DocumentFacts, 'intake' | 'calibrations' | 'care' | 'agreement'>;

export interface JobAbout extends FactsOfJournal {
  readonly day: string;
  readonly resin: unknown;
  readonly pitResin: unknown;
  readonly overrides: readonly SetAside[];
}

/** Of a person whose name was removed, or never written. */
export const NAME_NOT_KEPT = 'name not kept';

const NOTHING: FactsOfJournal = { intake: null, calibrations: null, care: null, agreement: null };

/** What a journal's header holds of it; journals from before have nothing. */
export function aboutIn({ about }: Pick<JournalHeader, 'about'>): FactsOfJournal {
  const parsed = jobAboutSchema.safeParse(about);
  if (!parsed.success) return NOTHING;
  const { intake, calibrations, care, agreement } = parsed.data;
  return { intake, calibrations, care, agreement };
}

/** What was set aside, by whom as far as the name is still kept; null where nobody recorded it. */
export function overridesIn(
  { about, startedAt }: Pick<JournalHeader, 'about' | 'startedAt'>,
  personal: DocumentFacts['personal'],
): DocumentFacts['overrides'] {
  const parsed = jobAboutSchema.safeParse(about);
  if (!parsed.success) return null;
  const { overrideBy: by = NAME_NOT_KEPT } = personal ?? {};
  return parsed.data.overrides.map(({ item, reason }) => ({
    at: startedAt,
    what: item,
    by,
    reason,
  }));
}

/** What the chain keeps of it, for a job that is entered from its journal alone. */
export function extrasIn({
  about,
}: Pick<JournalHeader, 'about'>): Pick<RepairExtras, 'assessment' | 'overrides'> {
  const parsed = jobAboutSchema.safeParse(about);
  if (!parsed.success) return { assessment: null, overrides: [] };
  const { intake, overrides } = parsed.data;
  return { assessment: assessmentEntry(intake?.assessment ?? null), overrides };
}

/** Names of the rule sets with their editions, and what they answered. */
export const assessmentEntry = (
  assessment: NonNullable<FactsOfJournal['intake']>['assessment'],
): RepairExtras['assessment'] =>
  assessment === null
    ? null
    : {
        ruleSets: assessment.ruleSets.map(({ name, edition }) => `${name} (${edition})`),
        answer: assessment.answer,
      };
