/**
 * The care that is due on a day: a row for each item, from what was logged and what the repairs
 * used up. The composition root decides whether a repair may start.
 */
import { dayAfter, daysFrom } from '../core/calendar.ts';
import type { Service } from './care-entry.ts';
import {
  type CareFacts,
  happened,
  isHealthTest,
  lastService,
  type RepairUse,
  repairsSince,
} from './care-records.ts';
import type { CareSettings } from './care-settings.ts';
import { dueCalibration } from './due-calibration.ts';
import { CARE_ITEM_NAMES, type CareItem, type DueItem } from './due-item.ts';
import { type DueState, type Interval, stateOf, worstOf } from './interval.ts';
import { lampLifeOf } from './lamp-history.ts';

type Rule = (facts: CareFacts, settings: CareSettings) => Omit<DueItem, 'item'>;

const RULES: Readonly<Record<CareItem, Rule>> = {
  'calibration-pressure': (facts, settings) => dueCalibration('pressure', facts, settings),
  'calibration-irradiance': (facts, settings) => dueCalibration('irradiance', facts, settings),
  'calibration-temperature': (facts, settings) => dueCalibration('temperature', facts, settings),
  'lamp-output': lampOutput,
  'lamp-hours': lampHours,
  'lamp-window': (facts, { lampWindow }) =>
    counted(facts, {
      service: 'lamp-window',
      unit: 'cures',
      used: (repairs) => sum(repairs.map(({ cures }) => cures)),
      interval: {
        every: lampWindow.everyCures,
        warnAhead: lampWindow.warnAheadCures,
        blockAfter: lampWindow.blockAfterCures,
      },
      whatToDo: 'Clean the window, then: meniscus care log lamp-window',
    }),
  'o-ring': (facts, { oRing }) =>
    counted(facts, {
      service: 'o-ring',
      unit: 'repairs',
      used: (repairs) => repairs.length,
      interval: {
        every: oRing.everyRepairs,
        warnAhead: oRing.warnAheadRepairs,
        blockAfter: oRing.blockAfterRepairs,
      },
      whatToDo: 'Put in a new O-ring, then: meniscus care log o-ring',
    }),
  'film-roll': filmRoll,
  health,
  interlocks,
  cleaning,
};

/** Every item, in the order of CARE_ITEMS. */
export const dueItems = (facts: CareFacts, settings: CareSettings): readonly DueItem[] =>
  CARE_ITEM_NAMES.map((item) => ({ ...RULES[item](facts, settings), item }));

interface Counted {
  readonly service: Service;
  readonly unit: string;
  readonly used: (repairs: readonly RepairUse[]) => number;
  readonly interval: Interval;
  readonly whatToDo: string;
}

/** Wear from repairs since a piece of service; where none is logged, since the record began. */
function counted(facts: CareFacts, of: Counted): Omit<DueItem, 'item'> {
  const last = lastService(of.service, facts);
  const used = of.used(repairsSince(last, facts));
  const { every } = of.interval;
  const state = stateOf(used, of.interval);
  return {
    state,
    words: `${used} of ${every} ${of.unit}${sinceWords(last?.body.on)}`,
    since: last?.body.on ?? null,
    due: `at ${every} ${of.unit}`,
    whatToDo: state === 'in-order' ? '' : of.whatToDo,
  };
}

function filmRoll(facts: CareFacts, { filmRoll: roll }: CareSettings): Omit<DueItem, 'item'> {
  const whatToDo = 'Put in a new roll, then: meniscus care log film-roll';
  const last = lastService('film-roll', facts);
  if (last === null) {
    const words = 'no roll logged, films are not counted';
    return { state: 'due-soon', words, since: null, due: null, whatToDo };
  }
  const films = last.body.count ?? roll.films;
  const left = films - sum(repairsSince(last, facts).map((use) => use.films));
  const state: DueState =
    left <= 0 ? 'blocked' : left <= roll.warnAtFilms ? 'due-soon' : 'in-order';
  return {
    state,
    words: `${Math.max(0, left)} of ${films} films left${sinceWords(last.body.on)}`,
    since: last.body.on,
    due: 'at the last film',
    whatToDo: state === 'in-order' ? '' : whatToDo,
  };
}

function lampOutput(facts: CareFacts, { lamp }: CareSettings): Omit<DueItem, 'item'> {
  const last = lampLifeOf(facts).outputs.at(-1);
  const due = `below ${percent(lamp.blockRatio)}`;
  const measure = 'Clean the window, then measure: meniscus calibrate uv';
  if (last === undefined) {
    return { state: 'due-soon', words: 'not measured yet', since: null, due, whatToDo: measure };
  }
  const ratio = last.irradianceWPerM2 / lamp.referenceWPerM2;
  const state: DueState =
    ratio < lamp.blockRatio ? 'blocked' : ratio < lamp.warnRatio ? 'due-soon' : 'in-order';
  return {
    state,
    words: `${percent(ratio)} of a new lamp on ${last.on}${state === 'blocked' ? `; at least ${percent(lamp.blockRatio)} is needed` : ''}`,
    since: last.on,
    due,
    whatToDo: state === 'in-order' ? '' : measure,
  };
}

function lampHours(facts: CareFacts, { lamp }: CareSettings): Omit<DueItem, 'item'> {
  const { lampOnH, newOn } = lampLifeOf(facts);
  const interval = {
    every: lamp.everyH,
    warnAhead: lamp.warnAheadH,
    blockAfter: lamp.blockAfterH,
  };
  const state = stateOf(lampOnH, interval);
  return {
    state,
    words: `${lampOnH.toFixed(1)} of ${lamp.everyH} h${newOn === null ? '' : sinceWords(newOn)}`,
    since: newOn,
    due: `at ${lamp.everyH} h`,
    whatToDo: state === 'in-order' ? '' : 'Put in a new lamp, then: meniscus care log lamp',
  };
}

function health(facts: CareFacts, settings: CareSettings): Omit<DueItem, 'item'> {
  const { everyDays, warnAheadDays, blockAfterDays } = settings.health;
  const test = 'meniscus care test';
  const last = happened(facts.care.filter(isHealthTest), facts.today).at(-1);
  if (last === undefined) {
    return { state: 'due-soon', words: 'never tested', since: null, due: null, whatToDo: test };
  }
  const { on, passed } = last.body;
  const interval = { every: everyDays, warnAhead: warnAheadDays, blockAfter: blockAfterDays };
  const age = stateOf(daysFrom(on, facts.today), interval);
  const state = passed ? age : worstOf([age, 'blocked']);
  const due = dayAfter(on, everyDays);
  return {
    state,
    words: passed ? `passed on ${on}, due ${due}` : `did not pass on ${on}`,
    since: on,
    due,
    whatToDo: state === 'in-order' ? '' : test,
  };
}

/** A contact that was not seen to move in the last test is not trusted. */
function interlocks(facts: CareFacts, settings: CareSettings): Omit<DueItem, 'item'> {
  const { everyDays, warnAheadDays, blockAfterDays } = settings.health;
  const test = 'meniscus care test';
  const tested = happened(facts.care.filter(isHealthTest), facts.today).filter(
    ({ body }) => body.interlocks !== undefined,
  );
  const last = tested.at(-1)?.body;
  if (last?.interlocks === undefined) {
    return { state: 'due-soon', words: 'never proved', since: null, due: null, whatToDo: test };
  }
  const { on } = last;
  const { emergencyStop, overPressureSwitch } = last.interlocks;
  const due = dayAfter(on, everyDays);
  if (emergencyStop !== true || overPressureSwitch !== true) {
    const which = emergencyStop === true ? 'over-pressure switch' : 'emergency stop';
    const words = `${which} not seen to move on ${on}`;
    return { state: 'blocked', words, since: on, due, whatToDo: `Check its wires, then: ${test}` };
  }
  const interval = { every: everyDays, warnAhead: warnAheadDays, blockAfter: blockAfterDays };
  const state = stateOf(daysFrom(on, facts.today), interval);
  return {
    state,
    words: `proved on ${on}, due ${due}`,
    since: on,
    due,
    whatToDo: state === 'in-order' ? '' : test,
  };
}

function cleaning(facts: CareFacts, settings: CareSettings): Omit<DueItem, 'item'> {
  const { everyDays, warnAheadDays, blockAfterDays } = settings.cleaning;
  const whatToDo = 'Clean the unit, then: meniscus care log cleaning';
  const last = lastService('cleaning', facts);
  if (last === null) {
    return { state: 'due-soon', words: 'never logged', since: null, due: null, whatToDo };
  }
  const { on } = last.body;
  const interval = { every: everyDays, warnAhead: warnAheadDays, blockAfter: blockAfterDays };
  const state = stateOf(daysFrom(on, facts.today), interval);
  const due = dayAfter(on, everyDays);
  return {
    state,
    words: `done on ${on}, due ${due}`,
    since: on,
    due,
    whatToDo: state === 'in-order' ? '' : whatToDo,
  };
}

const sinceWords = (on: string | undefined): string =>
  on === undefined ? ', never logged' : ` since ${on}`;

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0);

const percent = (ratio: number): string => `${(ratio * 100).toFixed(0)} %`;
