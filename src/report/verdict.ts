/**
 * The verdict on a record, from its claims alone: the first row that a claim fails gives the words,
 * and the grade is never better than the worst claim allows. It speaks of the process and of what it
 * rests on; the strength of the glass is not measured.
 */
import type { Objection } from './claims/claim.ts';
import { CLAIM_ROWS, type Claim } from './claims/claim-table.ts';
import { OBJECTIONS, type ObjectionId } from './claims/objections.ts';

export interface Verdict {
  readonly process:
    | 'process within its limits'
    | 'process within its limits, with interruptions'
    /** Something beside the process is not shown or not met: a check set aside, for example. */
    | 'process within its limits, with reservations'
    | 'process not shown to be within its limits'
    | 'process outside its limits'
    | 'dose not shown to be met'
    | 'process not completed'
    /** The journal has no end, so what happened after its last line is unknown. */
    | 'record incomplete, process not judged'
    | 'record changed, process not judged';
  readonly grade: 'good' | 'caution' | 'bad';
}

/**
 * The verdict that the chain records for a job whose journal broke off; a later report must not
 * improve on it.
 */
export const INCOMPLETE = 'record incomplete, process not judged' satisfies Verdict['process'];

interface VerdictRow extends Verdict {
  readonly holdsFor: (claim: Claim) => boolean;
}

/** A person may end a job at will: nothing went wrong, and nothing was finished. */
const STOPPED_BY_CHOICE: ObjectionId = 'stopped-by-person';

/** The gravest first. */
const VERDICT_ROWS: readonly VerdictRow[] = [
  {
    process: 'record changed, process not judged',
    grade: 'bad',
    holdsFor: ({ id, state }) => id === 'record' && state === 'not met',
  },
  {
    process: INCOMPLETE,
    grade: 'bad',
    holdsFor: ({ id, state }) => id === 'record' && state === 'not shown',
  },
  {
    process: 'process not completed',
    grade: 'bad',
    holdsFor: ({ id, state, objections }) =>
      id === 'completed' &&
      state !== 'shown' &&
      objections.some((one) => one.id !== STOPPED_BY_CHOICE),
  },
  {
    process: 'process not completed',
    grade: 'caution',
    holdsFor: ({ id, state }) => id === 'completed' && state !== 'shown',
  },
  {
    process: 'process outside its limits',
    grade: 'bad',
    holdsFor: ({ kind, state }) => kind === 'process' && state === 'not met',
  },
  {
    process: 'dose not shown to be met',
    grade: 'bad',
    holdsFor: ({ id, state }) => id === 'dose' && state !== 'shown',
  },
  {
    process: 'process not shown to be within its limits',
    grade: 'caution',
    holdsFor: ({ kind, state }) => kind === 'process' && state !== 'shown',
  },
  {
    process: 'process within its limits, with reservations',
    grade: 'caution',
    holdsFor: ({ kind, state }) => kind === 'beside' && state !== 'shown',
  },
  {
    process: 'process within its limits, with interruptions',
    grade: 'caution',
    holdsFor: ({ state }) => state !== 'shown',
  },
];

/** A list that lacks a claim is none: nothing is good for want of a row. */
export function verdictOf(claims: readonly Claim[]): Verdict {
  const lacks = CLAIM_ROWS.some((row) => !claims.some(({ id }) => id === row.id));
  if (lacks) return { process: INCOMPLETE, grade: 'bad' };
  const found = VERDICT_ROWS.find(({ holdsFor }) => claims.some(holdsFor));
  if (found === undefined) return { process: 'process within its limits', grade: 'good' };
  const { process, grade } = found;
  return { process, grade };
}

const NOT_JUDGED: readonly Verdict['process'][] = [
  'process not completed',
  INCOMPLETE,
  'record changed, process not judged',
];

/**
 * What qualifies a verdict, the gravest first. A job that did not come to its end lacks most of what
 * a whole one shows: there only what is known to be wrong is said.
 */
export function objectionsBeside(
  { process }: Verdict,
  claims: readonly Claim[],
): readonly Objection[] {
  const said = NOT_JUDGED.includes(process)
    ? claims.filter(({ kind, state }) => kind === 'beside' && state === 'not met')
    : claims.filter(({ kind }) => kind !== 'course' || !process.endsWith('with interruptions'));
  const objections = said.flatMap((claim) => claim.objections);
  const gravity = ({ id }: Objection): number => (OBJECTIONS[id].leaves === 'not met' ? 0 : 1);
  return objections
    .filter(({ id }, at) => objections.findIndex((one) => one.id === id) === at)
    .toSorted((one, other) => gravity(one) - gravity(other));
}

/** "But" qualifies a verdict that sounds good; "and" adds to one that does not. */
export const joinOf = (process: string): 'but' | 'and' =>
  process.startsWith('process within its limits') ? 'but' : 'and';
