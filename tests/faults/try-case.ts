/**
 * One case: a fault, or two, put into a sound job at a moment of it, and the job run to its end.
 */
import type { Rig } from '../../sim/board/rig.ts';
import type { Fault } from '../../sim/faults/faults.ts';
import { timeOfS } from '../../sim/plant/plant.ts';
import type { Event } from '../../src/core/events.ts';
import { isSafe } from '../../src/core/frame.ts';
import { isSteady, type Join, joining } from './as-sound.ts';
import { type CaseResult, type Course, judge, type Run } from './judge.ts';
import { watchLimits } from './limits.ts';
import type { Moment } from './moments.ts';
import type { Begun, Row } from './row.ts';

export interface Case {
  /** Such as `pressure-stuck@together.evacuate.1`; two of them joined by `+` for a pair. */
  readonly id: string;
  readonly parts: readonly CasePart[];
}
export interface CasePart {
  readonly row: Row;
  readonly moment: Moment;
}

/** A job that goes on for so long is left as it is: a sound one takes 200 to 260 s. */
const LONGEST_S = 800;
/**
 * One that stands safe for so long with nothing new is left: a person has tried twice, after 8.4 s
 * at most and 8 s later, and waits for help.
 */
const STANDS_S = 20;

/** To its end. */
export function runCase(one: Case): Run {
  const course = follow(one, null);
  if ('joins' in course) throw new Error('only a case that looks for a moment can come to one');
  return judge(course);
}

/**
 * The result alone. A single fault that had no effect until a later moment is the case of that
 * moment, of which `resultAt` knows or makes the result.
 */
export function resultOf(one: Case, resultAt: (later: Case) => CaseResult): CaseResult {
  const [part] = one.parts;
  if (part === undefined || one.parts.length > 1 || !isSteady(part.row)) return runCase(one).result;
  const course = follow(one, joining(part.moment));
  if (!('joins' in course)) return judge(course).result;
  const moment = course.joins;
  const id = one.id.replace(part.moment.id, moment.id);
  const result = resultAt({ id, parts: [{ row: part.row, moment }] });
  const { foundAfterS } = result;
  const sooner = moment.atS - part.moment.atS;
  return {
    ...result,
    id: one.id,
    foundAfterS: foundAfterS === null ? null : foundAfterS + sooner,
  };
}

const firstOf = ({ parts }: Case): Moment =>
  parts.reduce((a, b) => (b.moment.atS < a.moment.atS ? b : a)).moment;

function follow(one: Case, join: Join | null): Course | { readonly joins: Moment } {
  const first = firstOf(one);
  const faults = one.parts.flatMap(({ row, moment }) =>
    row.faults.map((fault) => begun(fault, moment.atS)),
  );
  const limits = watchLimits();
  const truth = first.truth.copy();
  let rig: Rig | null = null;
  const running = first.at.fork(faults, (now) => {
    limits.look(now);
    truth.look(now);
    rig = now;
  });
  const seen = (): Rig => rig as unknown as Rig;
  const fromEvent = running.log.events.length;
  let safeSinceS = Number.POSITIVE_INFINITY;
  for (;;) {
    const step = running.tick();
    truth.enter(step.snapshot);
    const trueS = timeOfS(seen().plant);
    const joins = join?.(running.log, seen().plant) ?? null;
    if (joins !== null && limits.breaches().length === 0) return { joins };
    const stands = isSafe(seen().acting) && !step.events.some(isNews);
    safeSinceS = stands ? Math.min(safeSinceS, trueS) : trueS;
    if (step.state.ended || trueS > LONGEST_S || trueS - safeSinceS > STANDS_S) break;
  }
  return {
    id: one.id,
    rows: one.parts.map(({ row }) => row),
    job: running.job,
    board: running.board.identity,
    log: running.log,
    fromEvent,
    fromS: first.atS,
    faults,
    breaches: limits.breaches(),
    truth: truth.truth(),
  };
}

const isNews = ({ kind }: Event): boolean => kind === 'batch' || kind === 'phase';

function begun({ begins, ...fault }: Begun, atS: number): Fault {
  if (begins === 'at-power-up') return { ...fault, from: { atS: 0 } };
  return { ...fault, from: { atS: atS + (begins?.afterS ?? 0) } };
}
