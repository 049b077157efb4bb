/**
 * Whether a rule set binds this vehicle, by its class and permitted gross mass. `remarks.ts` states
 * what follows where it does not.
 */
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import type { RuleSet } from './rule-set.ts';
import { allOf, type Verdict } from './zones.ts';

export const COVER_RESTS_ON = ['vehicle.class', 'vehicle.grossMassKg'];

export function coverOf({ vehicle }: IntakeSheet, { covers }: RuleSet): Verdict {
  const { class: kind, grossMassKg } = vehicle;
  const byMass = (limitKg: number | null, within: (kg: number, limitKg: number) => boolean) =>
    limitKg === null ? true : grossMassKg === 'unknown' ? 'unknown' : within(grossMassKg, limitKg);
  return allOf([
    covers.vehicles === 'all' || (kind === 'unknown' ? 'unknown' : covers.vehicles.includes(kind)),
    byMass(covers.overKg, (kg, limitKg) => kg > limitKg),
    byMass(covers.upToKg, (kg, limitKg) => kg <= limitKg),
  ]);
}
