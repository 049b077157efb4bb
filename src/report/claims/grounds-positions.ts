/**
 * A crack that was filled part by part: at each position of the injector the seal must have held, and
 * a person must have seen the part filled with the pressure off. The grounds of seal and fill look at
 * the last position; these look at those before it.
 */
import type { Event } from '../../core/events.ts';
import { recorded } from '../../core/sayings.ts';
import { say } from '../language.ts';
import { type Finding, type Ground, lacks, objects, supports } from './claim.ts';
import type { ClaimFacts } from './claim-facts.ts';
import { lookWithPressureOff } from './grounds-fill.ts';

interface Part {
  readonly number: string;
  readonly of: string;
  readonly fromS: number;
  readonly toS: number;
}

/** From one move of the injector to the next; empty where it was not moved. */
function partsBefore({ events }: Pick<ClaimFacts, 'events'>): readonly Part[] {
  let fromS = 0;
  return events.flatMap((event) => {
    if (event.kind !== 'moved' || event.what !== 'injector') return [];
    const place = { number: String(event.to - 1), of: String(event.of) };
    const part = { ...place, fromS, toS: event.timeS };
    fromS = event.timeS;
    return [part];
  });
}

const isIn = ({ fromS, toS }: Part, atS: number): boolean => atS >= fromS && atS < toS;

export const tightAtEachPosition: Ground = (facts) =>
  partsBefore(facts).map((part): Finding => {
    const { number, of } = part;
    const last = facts.sealTests.findLast(
      ({ atS, under }) => under === 'vacuum' && isIn(part, atS),
    );
    if (last === undefined) return lacks(say('lines.position-untested', { number, of }));
    const finding = say(`findings.${last.finding}`);
    if (last.finding === 'tight') {
      return supports('pressure sensor', say('lines.position-seal', { number, of, finding }));
    }
    const why = recorded(last.why);
    return objects(
      last.finding === 'leak' ? 'leaks' : 'outgassed',
      say('lines.position-seal-why', { number, of, finding, why }),
    );
  });

export const clearAtEachPosition: Ground = (facts) =>
  partsBefore(facts).flatMap((part): readonly Finding[] => {
    const { number, of } = part;
    const seen = facts.events.findLast(
      (event): event is Extract<Event, { kind: 'answer' }> =>
        event.kind === 'answer' && event.phase === 'ask-clear' && isIn(part, event.timeS),
    );
    if (seen?.answer !== 'yes') {
      return [objects('fill-unseen', say('lines.position-not-clear', { number, of }))];
    }
    const look = lookWithPressureOff(facts, seen.timeS);
    return [{ ...look, line: say('lines.position-look', { number, of, look: look.line }) }];
  });
