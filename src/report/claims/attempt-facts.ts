/**
 * What the header of an attempt states about the attempts of the same job before it: which they
 * were, how far they came, what they showed. It is written once, when the attempt begins, and is
 * sealed with its journal. `joined-claims.ts` says what of it counts.
 */
import { z } from 'zod';
import { OUTCOMES, REMEDY_IDS } from '../../core/events.ts';
import { numberAt, textAt } from '../../core/fields.ts';
import { PHASE_IDS, type PhaseId } from '../../core/phases.ts';
import type { Saying } from '../../core/sayings.ts';
import type { CountedDose } from '../report-dose.ts';
import type { CycleRow } from '../timeline.ts';
import { CLAIM_STATES } from './claim.ts';

const phase = z.enum(PHASE_IDS as [PhaseId, ...PhaseId[]]);

const saying = z.custom<Saying>((one) => textAt(one, 'say') !== null);

const earlierAttempt = z.object({
  /** The name of its record. */
  record: z.string(),
  number: z.number().int().min(1),
  /** Hash of the whole journal file, as its entry in the chain states it. */
  journalSha256: z.string(),
  startedAt: z.string(),
  endedAt: z.string(),
  end: z.object({ reason: z.string(), why: z.string() }),
  /** The last phase that it entered. */
  phase,
  claims: z.array(
    z.object({
      id: z.string(),
      portion: z.string().nullable(),
      field: z.object({ number: z.number(), of: z.number() }).nullable().optional(),
      state: z.enum(CLAIM_STATES),
      objections: z.array(
        z.object({
          id: z.string(),
          lines: z.array(z.string()),
          /** The lines as data; older journals have none. */
          said: z.array(saying).optional(),
        }),
      ),
    }),
  ),
  /** As its report states them. */
  doses: z.array(
    z.custom<CountedDose>(
      (dose) => typeof dose === 'object' && numberAt(dose, 'doseJPerM2') !== null,
    ),
  ),
  cycles: z.array(
    z.custom<CycleRow>((row) => typeof row === 'object' && numberAt(row, 'cycle') !== null),
  ),
});
export type EarlierAttempt = z.infer<typeof earlierAttempt>;

const attemptFacts = z.object({
  /** The name of the job's first record. */
  job: z.string(),
  number: z.number().int().min(2),
  /** `anew`: nothing had been pressed into the break. */
  how: z.enum(['go-on', 'cure-only', 'anew']),
  /** Null where the work begins again from the start. */
  entry: z
    .object({
      at: phase,
      cycle: z.number(),
      /** Of the injector along a crack; attempts from before there were several had one. */
      position: z.number().default(1),
      cyclesBefore: z.number().default(0),
      loadRatio: z.number(),
      /** Older attempts carried on neither: they began with the whole pressure and nothing tried. */
      pressureRatio: z.number().default(1),
      tried: z.array(z.enum(REMEDY_IDS)).readonly().default([]),
      outcome: z.enum(OUTCOMES).nullable(),
      legGrew: z.boolean().default(false),
    })
    .nullable(),
  /** Between the end of the last attempt and the start of this one, s. */
  apartS: z.number(),
  /** Uncured resin stood in the break in that time. */
  resinStood: z.boolean(),
  earlier: z.array(earlierAttempt).min(1),
});
export type AttemptFacts = z.infer<typeof attemptFacts>;

/** Null in the first attempt of a job, and in journals from before there were others. */
export function attemptIn(about: unknown): AttemptFacts | null {
  const parsed = z.object({ attempt: attemptFacts }).safeParse(about);
  return parsed.success ? parsed.data.attempt : null;
}
