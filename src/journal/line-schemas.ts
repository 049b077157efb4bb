/**
 * Zod schemas that the lines of a journal must match to be read: header, event, snapshot and
 * footer. The schema of a tick is in tick-line.ts. They are as strict as for settings files: an
 * unknown field is an error, because a half-understood record is worse than a refused one.
 */

import { z } from 'zod';
import { ALARM_IDS } from '../core/alarm-ids.ts';
import {
  ADAPTED_SET_POINTS,
  ALARM_STATES,
  BATCH_STATES,
  type Event,
  GAP_FAILURES,
  HOLD_REASONS,
  MOVED,
  RECHARGE_WHYS,
  REMEDY_IDS,
  SEAL_FINDINGS,
  type Snapshot,
} from '../core/events.ts';
import { exactNumber } from '../core/exact-number.ts';
import { POINT_NAMES, PROCEDURES, STEP_IDS, type StepId } from '../core/guided-events.ts';
import {
  CURE_MEASUREMENTS,
  JOB_MEASUREMENTS,
  MEASUREMENTS,
  PORTIONS,
} from '../core/measurements.ts';
import { PHASE_IDS, type PhaseId } from '../core/phases.ts';
import { choice, wholeNumber } from '../core/settings.ts';
import { columnsSchema, JOURNAL_SCHEMAS } from './columns.ts';
import type { JournalFooter, JournalHeader } from './journal-format.ts';

const sha256 = z.string().regex(/^[0-9a-f]{64}$/, { error: '64 hexadecimal digits' });
const count = wholeNumber(0, Number.MAX_SAFE_INTEGER, '');
const phase = z.enum(PHASE_IDS as readonly [PhaseId, ...PhaseId[]], { error: 'a known phase' });
const step = z.enum(STEP_IDS as readonly [StepId, ...StepId[]], { error: 'a known step' });
const END_REASONS = ['completed', 'stopped-by-person', 'alarm', 'interrupted', 'fault'] as const;

const end = {
  reason: choice(END_REASONS),
  why: z.string(),
  outcome: choice(['clear', 'mark-remains']).nullable(),
};

const header = z.strictObject({
  schema: z.enum(JOURNAL_SCHEMAS),
  columns: z.unknown(),
  procedure: choice(PROCEDURES).optional(),
  meniscus: z.string(),
  board: z.strictObject({
    kind: z.string(),
    serial: z.string(),
    firmware: z.string(),
    tickS: z.number(),
    leaseS: z.number(),
    protection: z.array(z.string()),
  }),
  seed: z.number().nullable(),
  startedAt: z.string(),
  inputs: z.strictObject({
    unit: z.unknown(),
    profile: z.unknown(),
    job: z.unknown(),
    extra: z.record(z.string(), z.unknown()),
  }),
  hashes: z.strictObject({ unit: sha256, profile: sha256, job: sha256 }),
  personalSha256: sha256.nullable().default(null),
  display: z.strictObject({ language: z.string(), sha256 }).nullable().default(null),
  about: z.unknown().default(null),
});

/** For a journal of that version, migrated: it keeps its own version and columns. */
export const headerSchemaOf = (version: number): z.ZodType<JournalHeader> =>
  header.extend({ columns: columnsSchema(version) });

const event = <K extends string, T extends z.core.$ZodLooseShape>(kind: K, shape: T) =>
  z.strictObject({ kind: z.literal(kind), timeS: exactNumber, ...shape });

export const eventSchema: z.ZodType<Event> = z.discriminatedUnion(
  'kind',
  [
    event('batch', { from: choice(BATCH_STATES), to: choice(BATCH_STATES), why: z.string() }),
    event('phase', { phase, cycle: exactNumber }),
    event('answer', { phase, answer: choice(['yes', 'no']) }),
    event('hold-reason', { phase, reason: choice(HOLD_REASONS) }),
    event('remedy', { cycle: exactNumber, remedy: choice(REMEDY_IDS), taken: z.boolean() }),
    event('recharge', { cycle: exactNumber, why: choice(RECHARGE_WHYS) }),
    event('moved', { what: choice(MOVED), to: count, of: count }),
    z.discriminatedUnion(
      'name',
      [
        event('measured', {
          name: choice(JOB_MEASUREMENTS),
          portion: z.null({ error: 'null: it is of no portion' }),
          value: exactNumber,
        }),
        event('measured', {
          name: choice(CURE_MEASUREMENTS),
          portion: choice(PORTIONS).nullable(),
          value: exactNumber,
        }),
      ],
      { error: `one of ${MEASUREMENTS.join(', ')}` },
    ),
    event('seal-finding', {
      finding: choice(SEAL_FINDINGS),
      why: z.string(),
      under: z.literal('pressure').optional(),
    }),
    event('adapted', {
      what: choice(ADAPTED_SET_POINTS),
      askedPa: exactNumber,
      givenPa: exactNumber,
      why: z.string(),
    }),
    event('gap-failed', {
      portion: choice(PORTIONS).nullable(),
      why: choice(GAP_FAILURES),
      lostJPerM2: exactNumber,
    }),
    event('alarm', {
      alarm: choice(ALARM_IDS),
      from: choice(ALARM_STATES),
      to: choice(ALARM_STATES),
      action: choice(['warn', 'hold', 'abort']),
      priority: choice(['low', 'medium', 'high']),
      cause: z.string(),
      remedy: z.string(),
    }),
    event('refused', { request: z.string(), why: z.string() }),
    event('end', end),
    event('step', { step }),
    event('point', {
      point: z.strictObject({
        at: choice(POINT_NAMES),
        reference: exactNumber,
        reading: z.strictObject({
          mean: exactNumber,
          standardDeviation: exactNumber,
          n: count,
          ownStandard: exactNumber,
        }),
      }),
    }),
  ],
  {
    error:
      'an event of kind batch, phase, answer, hold-reason, remedy, recharge, moved, measured, seal-finding, adapted, gap-failed, alarm, refused, end, step or point',
  },
);

const known = exactNumber.nullable();
export const snapshotSchema: z.ZodType<Snapshot> = z.strictObject({
  timeS: exactNumber,
  batch: choice(BATCH_STATES),
  phase,
  cycle: exactNumber,
  pressurePa: known,
  setPointPa: known,
  atmospherePa: known,
  irradianceWPerM2: known,
  doseJPerM2: exactNumber,
  targetJPerM2: exactNumber,
  glassK: known,
  heatSinkK: known,
  supplyV: known,
});

export const footerSchema: z.ZodType<JournalFooter> = z.strictObject({
  ...end,
  frames: count,
  events: count,
  sha256,
});
