/**
 * The resin as its bottles state it: in date on the day, named, worked on glass that it allows and
 * set by this lamp's light.
 * Whether it was this resin, the unit cannot see.
 */

import type { Snapshot } from '../../core/events.ts';
import { CURE_PHASES, PIT_PHASES, partOf } from '../../core/phases.ts';
import { figure, type Saying } from '../../core/sayings.ts';
import { usableUntil } from '../../core/shelf-life.ts';
import { celsiusFromK } from '../../core/units.ts';
import { type BottleFact, outOfDateLines } from '../bottle-facts.ts';
import { say } from '../language.ts';
import { curedPortionsOf } from '../report-dose.ts';
import { extreme } from '../timeline.ts';
import { celsiusWords, clockWords } from '../words.ts';
import { type Finding, type Ground, objects, supports } from './claim.ts';
import type { ClaimFacts } from './claim-facts.ts';
import { bottleSaid, forThisLight } from './grounds-light.ts';

const IDS = {
  fill: { past: 'resin-out-of-date', undated: 'resin-undated' },
  pit: { past: 'pit-resin-out-of-date', undated: 'pit-resin-undated' },
} as const;

const curedApart = ({ inputs }: ClaimFacts): boolean =>
  curedPortionsOf(inputs.profile).includes('pit');

const inDate: Ground = (facts) => {
  const { about } = facts;
  const { fill, pit } = about.bottles;
  const named = pit === null ? (['fill'] as const) : (['fill', 'pit'] as const);
  const findings = named.flatMap((use) => datesOf(use, about.bottles[use], about.day));
  const unnamed = pit === null && curedApart(facts);
  const words =
    fill === null ? say('lines.pit-unnamed') : say('lines.pit-by-fill', { name: fill.name });
  return unnamed ? [...findings, objects('pit-resin-unnamed', words)] : findings;
};

function datesOf(use: 'fill' | 'pit', bottle: BottleFact | null, day: string): readonly Finding[] {
  const { past, undated } = IDS[use];
  if (bottle === null) {
    return [objects(undated, say('lines.no-bottle-file', { portion: say(`portions.${use}`) }))];
  }
  const named = bottleSaid(bottle);
  if (bottle.shelfLife === null)
    return [objects(undated, say('lines.bottle-undated', { bottle: named }))];
  const out = outOfDateLines(bottle, day);
  if (out.length > 0) return out.map((line) => objects(past, line));
  return [
    supports(
      'bottle file',
      say('lines.bottle-good', { bottle: named, until: usableUntil(bottle.shelfLife), day }),
    ),
  ];
}

const asItAllows: Ground = (facts) => {
  const worked = workedOf(facts);
  return (['fill', 'pit'] as const).flatMap((use) => {
    const [bottle, seen] = [facts.about.bottles[use], worked[use]];
    const limits = bottle?.glass ?? null;
    if (bottle === null || limits === null || seen === null) return [];
    const words = say('lines.glass-worked', {
      seen: spanSaid(seen),
      bottle: bottleSaid(bottle),
      limits: spanSaid(limits),
    });
    const within = seen.lowestK >= limits.lowestK && seen.highestK <= limits.highestK;
    return [within ? supports('glass sensor', words) : objects('glass-outside-resin', words)];
  });
};

interface Span {
  readonly lowestK: number;
  readonly highestK: number;
}

const spanSaid = ({ lowestK, highestK }: Span): Saying =>
  say('lines.range', {
    low: figure(celsiusFromK(lowestK).toFixed(1)),
    high: figure(celsiusWords(highestK)),
  });

/**
 * Glass temperatures while each bottle's resin was worked and cured; null where none were measured.
 * When both are cured together, the pit is filled during the fill's last phases.
 */
function workedOf(facts: ClaimFacts): Readonly<Record<'fill' | 'pit', Span | null>> {
  const apart = curedApart(facts);
  const span = (counts: (snapshot: Snapshot) => boolean): Span | null => {
    const seenK = facts.snapshots
      .filter((snapshot) => snapshot.batch === 'running' && counts(snapshot))
      .flatMap(({ glassK }) => (glassK === null ? [] : [glassK]));
    const [lowestK, highestK] = [extreme(seenK, Math.min), extreme(seenK, Math.max)];
    return lowestK === null || highestK === null ? null : { lowestK, highestK };
  };
  return {
    fill: span(({ phase, cycle }) => {
      const worked = partOf(phase) === 'cycles' || (partOf(phase) === 'seal' && cycle > 0);
      return worked || (CURE_PHASES.has(phase) && !(apart && PIT_PHASES.has(phase)));
    }),
    pit: span(({ phase }) => PIT_PHASES.has(phase) && partOf(phase) === 'cure'),
  };
}

/** The bottle's file speaks for the resin of the job sheet alone. */
const noOther: Ground = ({ events }) =>
  events.flatMap((event) =>
    event.kind === 'recharge' && event.why === 'thinner-resin'
      ? [objects('other-resin', say('lines.thinner-resin', { at: clockWords(event.timeS) }))]
      : [],
  );

export const RESIN_GROUNDS: readonly Ground[] = [inDate, asItAllows, forThisLight, noOther];
