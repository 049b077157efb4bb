/**
 * Whether the break was filled: a person saw it, and the pressure was off when they looked. The unit
 * itself does not see the break.
 */
import { figure } from '../../core/sayings.ts';
import { say } from '../language.ts';
import { clockWords, kPaAbs } from '../words.ts';
import { type Ground, objects, supports } from './claim.ts';
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
    const line =
      last === null
        ? say('lines.person-found')
        : say('lines.person-found-at', { at: clockWords(last.atS) });
    return [objects('mark-remains', line)];
  }
  if (outcome === null) return [objects('fill-unseen', say('lines.nobody-judged'))];
  const line =
    last === null
      ? say('lines.person-yes')
      : say('lines.person-yes-at', { at: clockWords(last.atS) });
  return [supports('person', line)];
};

/** The question is put once the pressure is off; the reading at that moment shows that it was. */
const withPressureOff: Ground = (facts) => {
  const asked = lastAnswer(facts, 'ask-clear');
  if (asked === null || asked.answer !== 'yes') return [];
  const { snapshots, atmospherePa } = facts;
  const seen = snapshots.findLast(({ timeS }) => timeS <= asked.atS)?.pressurePa ?? null;
  const at = clockWords(asked.atS);
  if (seen === null || atmospherePa === null) {
    return [objects('look-under-pressure', say('lines.look-pressure-unknown', { at }))];
  }
  const words = say('lines.look-pressure', {
    seen: figure(kPaAbs(seen)),
    at,
    air: figure(kPaAbs(atmospherePa)),
  });
  return Math.abs(seen - atmospherePa) <= PRESSURE_OFF_WITHIN_PA
    ? [supports('pressure sensor', words)]
    : [objects('look-under-pressure', words)];
};

export const FILL_GROUNDS: readonly Ground[] = [seenByPerson, withPressureOff];
