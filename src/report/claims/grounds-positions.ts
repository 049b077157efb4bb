/**
 * A crack that was filled part by part: at each position of the injector the seal must have held, and
 * a person must have seen the part filled with the pressure off. The grounds of seal and fill look at
 * the last position; these look at those before it.
 */
import type { Event } from '../../core/events.ts';
import { type Finding, type Ground, lacks, objects, supports } from './claim.ts';
import type { ClaimFacts } from './claim-facts.ts';
import { lookWithPressureOff } from './grounds-fill.ts';

interface Part {
  readonly words: string;
  readonly fromS: number;
  readonly toS: number;
}

/** From one move of the injector to the next; empty where it was not moved. */
function partsBefore({ events }: Pick<ClaimFacts, 'events'>): readonly Part[] {
  let fromS = 0;
  return events.flatMap((event) => {
    if (event.kind !== 'moved' || event.what !== 'injector') return [];
    const part = { words: `position ${event.to - 1} of ${event.of}`, fromS, toS: event.timeS };
    fromS = event.timeS;
    return [part];
  });
}

const isIn = ({ fromS, toS }: Part, atS: number): boolean => atS >= fromS && atS < toS;

export const tightAtEachPosition: Ground = (facts) =>
  partsBefore(facts).map((part): Finding => {
    const last = facts.sealTests.findLast(({ atS }) => isIn(part, atS));
    if (last === undefined) return lacks(`no test of the seal at ${part.words}`);
    const found = `${part.words}: ${last.finding}`;
    return last.finding === 'tight'
      ? supports('pressure sensor', found)
      : objects(last.finding === 'leak' ? 'leaks' : 'outgassed', `${found}: ${last.why}`);
  });

export const clearAtEachPosition: Ground = (facts) =>
  partsBefore(facts).flatMap((part): readonly Finding[] => {
    const seen = facts.events.findLast(
      (event): event is Extract<Event, { kind: 'answer' }> =>
        event.kind === 'answer' && event.phase === 'ask-clear' && isIn(part, event.timeS),
    );
    if (seen?.answer === 'yes') return [lookWithPressureOff(facts, seen.timeS, part.words)];
    return [objects('fill-unseen', `nobody said at ${part.words} that it is all clear`)];
  });
