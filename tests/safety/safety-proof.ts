/**
 * Puts a row of the safety specification through the whole controller: silent just under its limit,
 * raised in time over it, outputs and batch as its action asks for, in force until its cause is gone
 * and, where it latches, until a person lets the job go on.
 */
import { expect } from 'vitest';
import type { ProcedureTypes } from '../../src/control/controller-state.ts';
import type { AlarmState } from '../../src/core/events.ts';
import { isSafe, SAFE } from '../../src/core/frame.ts';
import {
  actuatorsOf,
  pass,
  passUntil,
  type Scene,
  TICK_S,
  tick,
  type Unit,
} from '../steered-unit.ts';
import type { Provocation } from './provocation.ts';
import type { SafetyRow } from './safety-row.ts';

/** The middle of three samples is a tick late, and a sum of ticks may be one short. */
const IN_TIME_S = 2 * TICK_S;
const ROUNDING_S = 1e-6;
const COMES_TO_REST_S = 12;

type Logged = Pick<Unit<ProcedureTypes>, 'log'>;

/** What an alarm came to last; null while it never was. */
export function stateOf(id: string, { log }: Logged): AlarmState | null {
  const last = log.findLast((event) => event.kind === 'alarm' && event.alarm === id);
  return last?.kind === 'alarm' ? last.to : null;
}
const isRaised = (id: string) => (unit: Logged) => stateOf(id, unit) === 'unacknowledged';

interface Try<P extends ProcedureTypes> {
  readonly row: SafetyRow;
  readonly how: Provocation<P>;
}

export function prove<P extends ProcedureTypes>(row: SafetyRow, how: Provocation<P>): void {
  const tried = { row, how };
  silentUnder(tried);
  const raised = raisedOver(tried);
  if (row.action === 'warn') warnsOnly(tried, raised);
  else staysSafe(tried, raised);
}

/** Past the limit by this much is over it, and by as much less is under it. */
const away = ({ trips, limit }: SafetyRow, by: number): number =>
  (limit ?? 0) + (trips === 'above' ? by : -by);

function underOf<P extends ProcedureTypes>({ row, how }: Try<P>): number {
  return row.limit === null ? 0 : away(row, -(how.step ?? 0));
}
function overOf<P extends ProcedureTypes>({ row, how }: Try<P>): number {
  return row.limit === null ? 1 : (how.over ?? away(row, how.step ?? 0));
}

function silentUnder<P extends ProcedureTypes>(tried: Try<P>): void {
  const { row, how } = tried;
  const { id, delayS } = row;
  const value = underOf(tried);
  const start = how.start(value);
  expect(isSafe(actuatorsOf(start)), `${id}: the outputs before`).toBe(!how.lively);
  // Where the value runs by itself, that it is not raised too early says the same.
  if (how.runsS !== undefined) return;
  const unit = pass(start, how.quietS ?? delayS + 3, how.play(value, start));
  expect(stateOf(id, unit), `${id}: just under its limit`).toBeNull();
  expect(unit.state.batch, `${id}: just under its limit`).toBe('running');
}

function raisedOver<P extends ProcedureTypes>(tried: Try<P>): Unit<P> {
  const { row, how } = tried;
  const { id, action, priority, delayS } = row;
  const value = overOf(tried);
  const start = how.start(value);
  const earliestS = (how.runsS?.(row.limit ?? 0) ?? how.seenAfterS ?? 0) + delayS;
  const slackS = how.slackS ?? 0;
  const play = how.play(value, start);
  const unit = passUntil(start, 2 * earliestS + slackS + 5, play, isRaised(id));
  expect(stateOf(id, unit), `${id}: over its limit`).toBe('unacknowledged');
  // The first frame of the fault is no time at all.
  const afterS = (unit.ticks - start.ticks - 1) * TICK_S;
  expect(afterS, `${id}: too early`).toBeGreaterThanOrEqual(earliestS - slackS - ROUNDING_S);
  expect(afterS, `${id}: too late`).toBeLessThanOrEqual(
    earliestS + slackS + IN_TIME_S + ROUNDING_S,
  );
  const told = unit.step?.events.find((event) => event.kind === 'alarm' && event.alarm === id);
  expect(told).toMatchObject({ action, priority });
  return unit;
}

const placeOf = <P extends ProcedureTypes>({ procedure, state }: Unit<P>): string =>
  procedure.subjectOf(state.procedure);

/** Nothing about the job changes, and the warning goes with its cause once somebody has seen it. */
function warnsOnly<P extends ProcedureTypes>(tried: Try<P>, raised: Unit<P>): void {
  const { row, how } = tried;
  const { sound = {}, followsS = 0.5 } = how;
  expect(raised.state.batch, `${row.id}: only warns`).toBe('running');
  const start = how.start(overOf(tried));
  if (how.lively && placeOf(raised) === placeOf(start)) {
    expect(isSafe(actuatorsOf(raised)), `${row.id}: stops nothing`).toBe(false);
  }
  let unit = pass(throughDeadband(tried, raised), followsS, sound);
  for (let press = 0; press < 3 && stateOf(row.id, unit) !== 'normal'; press++) {
    unit = yes(unit, sound);
  }
  expect(stateOf(row.id, unit), `${row.id}: gone with its cause`).toBe('normal');
  const moves = unit.log.slice(raised.log.length).filter(({ kind }) => kind === 'batch');
  expect(moves, `${row.id}: holds nothing`).toEqual([]);
}

/** Safe in the tick in which it is raised, and from there on until a person lets the job go on. */
function staysSafe<P extends ProcedureTypes>(tried: Try<P>, raised: Unit<P>): void {
  const { row, how } = tried;
  const { id, action, latching } = row;
  const { sound = {}, endures = false } = how;
  const rest = action === 'abort' ? 'aborted' : 'held';
  expect(actuatorsOf(raised), `${id}: safe`).toEqual(SAFE);
  // A unit that is vented already is at rest at once.
  expect(raised.state.batch, id).toMatch(action === 'abort' ? /^abort/ : /^h(olding|eld)$/);

  const gone = passSafe(id, throughDeadband(tried, raised), COMES_TO_REST_S, sound);
  expect(gone.state.batch, `${id}: its cause is gone`).toBe(rest);
  if (!endures) expect(stateOf(id, gone), id).toBe('returned-unacknowledged');

  const seen = acknowledged(passSafe(id, gone, 10, sound), sound);
  const after = latching ? 'latched' : 'normal';
  expect(stateOf(id, seen), `${id}: acknowledged`).toBe(endures ? 'acknowledged' : after);
  const waiting = passSafe(id, seen, 5, sound);
  expect(waiting.state.batch, `${id}: nobody let it go on`).toBe(rest);

  const asked = yes(waiting, sound);
  if (action === 'hold' && !endures) {
    expect(pass(asked, 1.5, sound).state.batch, `${id}: let go on`).toBe('running');
    expect(stateOf(id, asked), `${id}: let go on`).toBe('normal');
    return;
  }
  const never = passSafe(id, asked, 5, sound);
  expect(never.state.batch, `${id}: does not go on`).toBe(rest);
  if (action === 'abort') {
    expect(stateOf(id, never), `${id}: nobody resets it`).toBe(after);
    expect(never.log.find(({ kind }) => kind === 'end')).toMatchObject({ reason: 'alarm' });
  }
}

/** Back past its limit it stands for as long as it is not past its deadband, too. */
function throughDeadband<P extends ProcedureTypes>({ row, how }: Try<P>, raised: Unit<P>): Unit<P> {
  const { id, deadband } = row;
  if (deadband === null) return raised;
  const start = how.start(overOf({ row, how }));
  if (how.turnsBackS !== undefined) return turnedBack({ row, how }, raised);
  const back = (unit: Unit<P>, share: number): Unit<P> =>
    pass(unit, how.followsS ?? 0.5, how.play(away(row, -share * deadband), start));
  const inside = back(raised, 0.7);
  expect(stateOf(id, inside), `${id}: inside its deadband`).toBe('unacknowledged');
  const outside = back(inside, 1.3);
  expect(stateOf(id, outside), `${id}: out of its deadband`).toBe('returned-unacknowledged');
  return outside;
}

function turnedBack<P extends ProcedureTypes>({ row, how }: Try<P>, raised: Unit<P>): Unit<P> {
  const { turnsBackS = 0, slackS = 0 } = how;
  const value = overOf({ row, how });
  const start = how.start(value);
  const play = how.play(value, start);
  const isBack = (unit: Unit<P>): boolean => stateOf(row.id, unit) !== 'unacknowledged';
  const back = passUntil(raised, 2 * turnsBackS, play, isBack);
  const afterS = (back.ticks - start.ticks - 1) * TICK_S;
  expect(Math.abs(afterS - turnsBackS), `${row.id}: back after ${afterS} s`).toBeLessThan(slackS);
  return back;
}

function passSafe<P extends ProcedureTypes>(
  id: string,
  unit: Unit<P>,
  seconds: number,
  scene: Scene,
): Unit<P> {
  return passUntil(unit, seconds, scene, (now) => {
    expect(actuatorsOf(now), `${id}: safe in ${now.state.batch}`).toEqual(SAFE);
    return false;
  });
}

/** YES, once the screen can count as read. */
const yes = <P extends ProcedureTypes>(unit: Unit<P>, scene: Scene): Unit<P> =>
  tick(pass(unit, 1.6, scene), { ...scene, pressed: ['yes'] });

/** Somebody reads all alarms, one after the other. */
function acknowledged<P extends ProcedureTypes>(unit: Unit<P>, scene: Scene): Unit<P> {
  let now = unit;
  for (let press = 0; press < 8 && hasUnread(now); press++) now = yes(now, scene);
  return now;
}

const hasUnread = (unit: Logged): boolean => {
  const ids = unit.log.flatMap((event) => (event.kind === 'alarm' ? [event.alarm] : []));
  return ids.some((id) => stateOf(id, unit)?.endsWith('unacknowledged'));
};
