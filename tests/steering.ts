/**
 * The paths that steer a hand-made unit into each phase of a repair and each step of a guided
 * procedure: the answers on the way, and the behaviour of the closed chamber.
 */

import type { ProcedureTypes } from '../src/control/controller-state.ts';
import type { Procedure } from '../src/control/procedure.ts';
import { type ProcedureName, STEP_MARKS, type StepId } from '../src/core/guided-events.ts';
import type { PhaseId } from '../src/core/phases.ts';
import { GUIDED } from '../src/procedure/guided/guided.ts';
import type { Guided } from '../src/procedure/guided/guided-state.ts';
import { REPAIR } from '../src/procedure/repair/repair.ts';
import type { Repair, RepairConfig } from '../src/procedure/repair/repair-state.ts';
import { APART } from './control/apart-driver.ts';
import { guidedConfig } from './procedure/guided/guided-bench.ts';
import { CRACK } from './repairs/crack-config.ts';
import { type Scene, tick, type Unit, unitAtRest } from './steered-unit.ts';

interface Way {
  /** The questions that are answered with NO; whether bubbles still come, unless said otherwise. */
  readonly no?: readonly PhaseId[];
  /** How far the closed chamber has risen, Pa, by the time since it was closed, s. */
  readonly rise?: (sinceS: number) => number;
  /** What the dry chamber comes to while it is pressed, Pa, by the time since the pump began, s. */
  readonly pressed?: (sinceS: number) => number;
  /** Where HOLD is pressed because a leg grew; the job is then let go on. */
  readonly legGrowsIn?: PhaseId;
  /** Where the glass is as cold as outdoors. */
  readonly coldIn?: PhaseId;
  readonly airPa?: number;
  /** A crack that is worked along its length, in one exposure for each field. */
  readonly crack?: true;
  /** The air in the unit's last job, where there was one. */
  readonly airLastJobPa?: number;
}

/** Water at 23 C has a pressure of 2.8 kPa: it levels there, and what outgasses far below. */
const levelling = (plateauPa: number) => (sinceS: number) =>
  plateauPa * (1 - Math.exp(-sinceS / 9));
/** Of the limit, which is 167 Pa/s in this unit. */
const leaking = (share: number) => (sinceS: number) => share * 167 * sinceS;

const WAYS: Partial<Record<PhaseId, Way>> = {
  // Brought up here from sea level.
  'air-jump': { airPa: 79_500, airLastJobPa: 100_600 },
  // As thin as at 2,000 m.
  'vacuum-note': { airPa: 79_500 },
  'glass-gate': { coldIn: 'inspect' },
  'end-stop': { crack: true },
  'move-injector': { crack: true },
  'move-lamp': { crack: true },
  reseat: { rise: leaking(3) },
  'dry-again': { rise: levelling(2_600) },
  'long-pull': { rise: levelling(1_400) },
  'test-again': { rise: leaking(1) },
  'foot-lifts': { pressed: (sinceS) => 100_600 + Math.min(90_000, 60_000 * sinceS) },
  'bubbles-stay': { no: [] },
  'ask-resin': { no: ['ask-bubbles', 'ask-clear'] },
  recharge: { no: ['ask-bubbles', 'ask-clear', 'ask-resin'] },
  'offer-remedy': { no: ['ask-bubbles', 'ask-clear'] },
  'try-remedy': { no: ['ask-bubbles', 'ask-clear'] },
  'offer-cycle': { no: ['ask-bubbles', 'ask-clear', 'offer-remedy'] },
  'measure-leg': { legGrowsIn: 'vacuum-dwell' },
  'accept-mark': { no: ['ask-bubbles', 'ask-clear', 'offer-remedy', 'offer-cycle'] },
  'cycle-or-end': {
    no: ['ask-bubbles', 'ask-clear', 'offer-remedy', 'offer-cycle', 'accept-mark'],
  },
};

/** With the lamp at full, as the sensors of a hand-made unit see it. */
export const AT_CRACK: RepairConfig = {
  ...CRACK,
  profile: { ...CRACK.profile, cure: { ...CRACK.profile.cure, lampRatio: 1 } },
};

/** A person answers once the screen can count as read. */
const READ_S = 1.6;
const LONGEST_TICKS = 60_000;

export const mayAnswer = <P extends ProcedureTypes>({ procedure, state }: Unit<P>): boolean =>
  procedure.rowOf(state.procedure).kind !== 'automatic' && state.screen.shownS >= READ_S;

/** Goes on for as far as somebody asks, and keeps the unit as it came into each place first. */
function createWalk<P extends ProcedureTypes, Place extends string>(
  start: Unit<P>,
  placeOf: (walk: P['walk']) => Place,
  look: (unit: Unit<P>) => Scene,
): (place: Place) => Unit<P> {
  const entered = new Map<Place, Unit<P>>();
  let unit = start;
  return (place) => {
    for (let n = 0; n < LONGEST_TICKS && !entered.has(place) && !unit.state.ended; n++) {
      unit = tick(unit, look(unit));
      const alarm = unit.log.find(({ kind }) => kind === 'alarm');
      if (alarm?.kind === 'alarm') throw new Error(`${alarm.alarm} on the way: ${alarm.cause}`);
      const now = placeOf(unit.state.procedure);
      if (unit.state.batch === 'running' && !entered.has(now)) entered.set(now, unit);
    }
    const there = entered.get(place);
    if (there === undefined) throw new Error(`${place} was never entered`);
    return there;
  };
}

export interface Steering {
  readonly config?: RepairConfig;
  readonly procedure?: Procedure<Repair>;
  /** What the sensors see all the way. */
  readonly scene?: Scene;
}

function repairWalk(way: Way, steering: Steering) {
  const {
    config = way.crack === true ? AT_CRACK : APART,
    procedure = REPAIR,
    scene = {},
  } = steering;
  const {
    no = ['ask-bubbles'],
    rise,
    pressed,
    legGrowsIn,
    coldIn,
    airPa,
    airLastJobPa = null,
  } = way;
  const unit = { ...config.unit, airLastJobPa };
  return createWalk(
    unitAtRest(procedure, { ...config, unit }, airPa),
    ({ phase }) => phase,
    (now): Scene => {
      const { phase: at, elapsedS } = now.state.procedure;
      const { batch, screen } = now.state;
      if (batch === 'held') return { ...scene, pressed: screen.shownS >= READ_S ? ['yes'] : [] };
      if (batch === 'running' && at === legGrowsIn && elapsedS > 1) {
        return { ...scene, pressed: ['hold'] };
      }
      const closed =
        at === 'seal-watch' && rise !== undefined
          ? { pressurePa: 60_000 + rise(elapsedS) }
          : at === 'seal-press' && pressed !== undefined
            ? { pressurePa: pressed(elapsedS) }
            : {};
      const cold = at === coldIn ? { glassK: 276.15 } : {};
      const answer = no.includes(at) ? 'no' : 'yes';
      return { ...closed, ...cold, ...scene, pressed: mayAnswer(now) ? [answer] : [] };
    },
  );
}

type Walk = ReturnType<typeof repairWalk>;
const walks = new Map<Procedure<Repair>, Map<Way, Walk>>();
const STRAIGHT_ON: Way = {};

/** A repair in the first tick after it entered the phase; its fill and pit are cured apart. */
export function repairIn(phase: PhaseId, steering: Steering = {}): Unit<Repair> {
  const way = WAYS[phase] ?? STRAIGHT_ON;
  const { procedure = REPAIR, config, scene } = steering;
  if (config !== undefined || scene !== undefined) return repairWalk(way, steering)(phase);
  const known = walks.get(procedure) ?? new Map<Way, Walk>();
  walks.set(procedure, known);
  const walk = known.get(way) ?? repairWalk(way, steering);
  known.set(way, walk);
  return walk(phase);
}

const guidedWalk = (name: ProcedureName) =>
  createWalk(
    unitAtRest(GUIDED, guidedConfig(name)),
    ({ step }) => step,
    (now) => ({ pressed: mayAnswer(now) ? ['yes'] : [] }),
  );
const guidedWalks = new Map<ProcedureName, ReturnType<typeof guidedWalk>>();

const BY_LETTER: Readonly<Record<string, ProcedureName>> = {
  P: 'pressure',
  U: 'uv',
  T: 'temperature',
  H: 'health',
};

/** The guided procedure that a step belongs to. */
export function procedureOf(step: StepId): ProcedureName {
  const name = BY_LETTER[STEP_MARKS[step].charAt(0)];
  if (name === undefined) throw new Error(`${step} belongs to no procedure`);
  return name;
}

/** A guided procedure in the first tick after it entered the step. */
export function guidedIn(step: StepId): Unit<Guided> {
  const name = procedureOf(step);
  const walk = guidedWalks.get(name) ?? guidedWalk(name);
  guidedWalks.set(name, walk);
  return walk(step);
}
