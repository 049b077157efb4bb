/**
 * Whether a rule set binds this vehicle: by permitted gross mass first, then by its class and seats,
 * then by its use. `remarks.ts` states what follows where it does not.
 */
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import type { RuleSet } from './rule-set.ts';
import { allOf, type Verdict } from './zones.ts';

interface Asked {
  readonly path: string;
  readonly binds: Verdict;
}

/** Each answer on which the cover rests, in the order in which it is asked. */
function asked({ vehicle }: IntakeSheet, { covers }: RuleSet): readonly Asked[] {
  const { class: kind, grossMassKg, seats, commercialUse } = vehicle;
  const { overKg, upToKg, vehicles, fewerSeatsThan, use } = covers;
  const known = <T>(answer: T | 'unknown', within: (answer: T) => boolean): Verdict =>
    answer === 'unknown' ? 'unknown' : within(answer);
  return [
    ...(overKg === null
      ? []
      : [{ path: 'vehicle.grossMassKg', binds: known(grossMassKg, (kg) => kg > overKg) }]),
    ...(upToKg === null
      ? []
      : [{ path: 'vehicle.grossMassKg', binds: known(grossMassKg, (kg) => kg <= upToKg) }]),
    ...(vehicles === 'all'
      ? []
      : [{ path: 'vehicle.class', binds: known(kind, (one) => vehicles.includes(one)) }]),
    ...(fewerSeatsThan === null
      ? []
      : [{ path: 'vehicle.seats', binds: known(seats, (count) => count < fewerSeatsThan) }]),
    ...(use === 'any'
      ? []
      : [{ path: 'vehicle.commercialUse', binds: known(commercialUse, (trade) => trade) }]),
  ];
}

export const coverOf = (sheet: IntakeSheet, set: RuleSet): Verdict =>
  allOf(asked(sheet, set).map(({ binds }) => binds));

/** Paths of the answers that determine the cover. */
export const coverRestsOn = (sheet: IntakeSheet, set: RuleSet): readonly string[] => [
  ...new Set(asked(sheet, set).map(({ path }) => path)),
];
