/**
 * For any rule, a sheet on which it applies, and answers just inside and just outside of what it
 * accepts. Shared by the tests of the built-in rule sets and of the technical exclusions; knows the
 * form of a rule and nothing of any rule's figure.
 */

import { limitValue } from '../../../src/intake/rules/judge-condition.ts';
import { ANYWHERE, type Condition, type RuleSet } from '../../../src/intake/rules/rule-set.ts';
import { zoneVerdicts } from '../../../src/intake/rules/zones.ts';
import type { IntakeSheet } from '../../../src/intake/sheet/intake-sheet.ts';
import { MEASURES, type Measure, type MeasureName } from '../../../src/intake/sheet/measures.ts';
import { type Changes, sheetWith } from '../sheets.ts';

type Answer = number | boolean | string;
const SMALLEST = 0.01;

/** How a measure is brought to a value: most are one answer of the sheet. */
export function answerFor(about: MeasureName, answer: Answer, type: unknown): Changes {
  switch (about) {
    case 'extentMm':
      return type === 'crack' ? { 'damage.longestLegMm': answer } : { 'damage.diameterMm': answer };
    case 'edgeDistanceMm':
      // A bullseye of 12 mm on a pane of 2400 x 1200 mm.
      return { 'place.fromLeftMm': Number(answer) + 6, 'place.fromTopMm': 600 };
    case 'edgeReached':
      return { 'damage.edgesReached': answer === true ? 1 : 0 };
    case 'otherDamage':
      return { 'place.otherDamageMm': answer === true ? 500 : null };
    case 'earlierRepair':
      return { 'place.earlierRepairMm': answer === true ? 500 : null };
    case 'vehicleClass':
      return { 'vehicle.class': answer };
    default:
      return { [MEASURES[about].restsOn(sheetWith())[0] ?? about]: answer };
  }
}

export interface Case {
  readonly holds: readonly Changes[];
  readonly broken: readonly Changes[];
  readonly unknown: readonly { readonly changes: Changes; readonly path: string }[];
}

export function casesOf(rule: Condition): Case {
  const base = applying(rule);
  const type = base['damage.type'];
  const set = (answers: readonly Answer[]) =>
    answers.map((answer) => ({ ...base, ...answerFor(rule.about, answer, type) }));
  const { answers, restsOn }: Measure = MEASURES[rule.about];
  const { inside, outside } = sides(rule, answers);
  const first = set(outside)[0] ?? base;
  return {
    holds: set(inside),
    broken: set(outside),
    unknown: restsOn(sheetWith(first)).map((path) => ({
      changes: { ...first, [path]: 'unknown' },
      path,
    })),
  };
}

/** Answers with which the rule's `when` is met. */
function applying(rule: Condition): Changes {
  const pairs = Object.entries(rule.when).map(([name, wanted]) =>
    answerFor(name as MeasureName, wanted[0] ?? '', undefined),
  );
  return Object.assign({}, ...pairs);
}

function sides({ limit, forbids }: Condition, answers: readonly Answer[]) {
  if (limit === undefined) {
    const outside = forbids ?? [];
    return { outside, inside: answers.filter((answer) => !outside.some((one) => one === answer)) };
  }
  const value = limitValue(limit);
  const step = ['mm', 'in'].includes(limit.unit) ? SMALLEST : 1;
  switch (limit.is) {
    case 'at-most':
      return { inside: [value], outside: [value + step] };
    case 'less-than':
      return { inside: [value - step], outside: [value] };
    case 'at-least':
      return { inside: [value], outside: [value - step] };
  }
}

/** The sheet with its damage moved to where this zone counts; rules that hold anywhere leave it. */
export function placedIn(set: RuleSet, zone: string, changes: Changes): IntakeSheet {
  const sheet = sheetWith(changes);
  if (zone === ANYWHERE) return sheet;
  for (let fromTopMm = 5; fromTopMm < 1200; fromTopMm += 40) {
    for (let fromLeftMm = 5; fromLeftMm < 2400; fromLeftMm += 40) {
      const there = { ...sheet, place: { ...sheet.place, fromLeftMm, fromTopMm } };
      const counts = zoneVerdicts(there, set.zones).find((one) => one.zone.id === zone);
      if (counts?.countsHere === true) return there;
    }
  }
  throw new Error(`${set.id}: no place on the pane counts to ${zone}`);
}

/** A vehicle that the set covers. */
export const vehicleFor = ({ covers }: RuleSet): Changes => ({
  'vehicle.class': covers.vehicles === 'all' ? 'car' : covers.vehicles[0],
  'vehicle.grossMassKg': covers.overKg === null ? (covers.upToKg ?? 1900) : covers.overKg + 1,
  'vehicle.commercialUse': covers.use === 'commercial',
});
