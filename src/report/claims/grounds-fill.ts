/**
 * Whether the break was filled: a person saw it, and the pressure was off when they looked. The unit
 * itself does not see the break.
 */
import { clockWords, kPaAbs } from '../words.ts';
import { type Finding, type Ground, objects, supports } from './claim.ts';
import type { ClaimFacts } from './claim-facts.ts';

/** So near its zero a sensor shows an open chamber: as the regulation takes it, demo. */
const PRESSURE_OFF_WITHIN_PA = 2_000;

const lastAnswer = ({ events }: ClaimFacts, phase: 'ask-clear' | 'final-look') => {
  const found = events.findLast((event) => event.kind === 'answer' && event.phase === phase);
  return found?.kind === 'answer' ? { atS: found.timeS, answer: found.answer } : null;
};

const seenByPerson: Ground = (facts) => {
  const { outcome } = facts.end;
  const last = lastAnswer(facts, 'final-look');
  if (outcome === 'mark-remains') {
    const at = last === null ? '' : ` at ${clockWords(last.atS)} min`;
    return [objects('mark-remains', `a person found it${at}`)];
  }
  if (outcome === null) return [objects('fill-unseen', 'the record ends before anybody judged it')];
  const at = last === null ? 'at the end' : `at ${clockWords(last.atS)} min`;
  return [supports('person', `${at}, asked whether it is clear, level and hard all over: YES`)];
};

/** The question is put once the pressure is off; the reading at that moment shows that it was. */
const withPressureOff: Ground = (facts) => {
  const asked = lastAnswer(facts, 'ask-clear');
  if (asked === null || asked.answer !== 'yes') return [];
  return [lookWithPressureOff(facts, asked.atS)];
};

/** `where`: the position, where the injector stood at several. */
export function lookWithPressureOff(
  { snapshots, atmospherePa }: Pick<ClaimFacts, 'snapshots' | 'atmospherePa'>,
  atS: number,
  where: string | null = null,
): Finding {
  const seen = snapshots.findLast(({ timeS }) => timeS <= atS)?.pressurePa ?? null;
  const at = where === null ? '' : ` at ${where}`;
  const when = `${clockWords(atS)} min, when a person answered${at} that it is all clear`;
  if (seen === null || atmospherePa === null) {
    return objects('look-under-pressure', `no pressure is known at ${when}`);
  }
  const words = `${kPaAbs(seen)} at ${when}; the air had ${kPaAbs(atmospherePa)}`;
  return Math.abs(seen - atmospherePa) <= PRESSURE_OFF_WITHIN_PA
    ? supports('pressure sensor', words)
    : objects('look-under-pressure', words);
}

export const FILL_GROUNDS: readonly Ground[] = [seenByPerson, withPressureOff];
