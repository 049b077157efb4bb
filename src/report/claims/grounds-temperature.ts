/**
 * Whether the glass stayed within the profile's limits, and what shows that its sensor said so
 * rightly: it agreed with the air and with the heat sink at rest, and moved in every cure.
 */
import type { AlarmId } from '../../core/alarm-ids.ts';
import { lampBurns } from '../../core/frame.ts';
import { type Filling, figure } from '../../core/sayings.ts';
import { say } from '../language.ts';
import { lastMeasured, type MeasuredRow } from '../timeline.ts';
import { celsiusWords, secondsWords } from '../words.ts';
import { type Finding, type Ground, lacks, notRecorded, objects, supports } from './claim.ts';
import { curesIn } from './claim-facts.ts';
import { objectsAfter } from './doubts.ts';
import { glassRisesIn, LEAST_SHARE_OF_USUAL } from './glass-warmth.ts';
import { withinLimits } from './within-limits.ts';

const SENSOR_ALARMS: readonly AlarmId[] = [
  'heat-sink-cold',
  'heat-sink-warm',
  'glass-not-warmed',
  'temperatures-apart',
];

/**
 * The least rise that shows that the sensor sits on the glass and moves, K: more than noise leaves
 * of the smoothed reading. A light too short to warm the glass by it shows nothing.
 */
const LEAST_SEEN_K = 0.3;

/**
 * The alarms judge how far apart is too far; without one of them the figures stand. Every cure must
 * have warmed the glass: a sensor may stick between two.
 */
const bothFollow: Ground = (facts) => {
  const last = (name: MeasuredRow['name']): string | null =>
    lastMeasured(facts.measured, name)?.toFixed(1) ?? null;
  const [glassAtRest, sinkAtRest] = [last('glassOverAirK'), last('heatSinkOverAirK')];
  const [cures, sink] = [glassRisesIn(facts), last('heatSinkWarmedK')];
  const rises = cures.flatMap((rise) => rise ?? []);
  const tooFew = rises.length === 0 || rises.length < cures.length;
  if (glassAtRest === null || sinkAtRest === null || sink === null || tooFew) {
    return [notRecorded(say('lines.both-follow'), facts)];
  }
  const little = rises.flatMap(({ seenK, usualK: statedK }) => {
    const usualK = statedK ?? 0;
    if (seenK >= Math.max(LEAST_SEEN_K, LEAST_SHARE_OF_USUAL * usualK)) return [];
    const [seen, usual] = [kelvin(seenK.toFixed(1)), kelvin(usualK.toFixed(1))];
    return [lacks(say('lines.little-warmed', { seen, usual }))];
  });
  if (little.length > 0) return little;
  const usual = last('heatSinkUsuallyWarmedK');
  const figures = {
    sink: kelvin(sinkAtRest),
    glass: kelvin(glassAtRest),
    warmed: kelvin(sink),
    risen: risesSaid(rises.map(({ seenK }) => seenK.toFixed(1))),
  };
  const line =
    usual === null
      ? say('lines.at-rest', figures)
      : say('lines.at-rest-usual', { ...figures, usual: kelvin(usual) });
  return [supports('heat sink sensor', line)];
};

const kelvin = (k: string) => figure(`${k} K`);

/** One cure, or two. */
const risesSaid = ([first = '', ...others]: readonly string[]): Filling =>
  others.reduce<Filling>(
    (one, k, at) =>
      say('lines.and', { one, other: at === others.length - 1 ? kelvin(k) : figure(k) }),
    others.length === 0 ? kelvin(first) : figure(first),
  );

/**
 * How long the count of a sound sensor may stand while the glass warms. A count is 0.09 K. Under
 * usual light the glass follows with a time constant of some 3 min: it moves by three counts in the
 * first 25 s, and later by three in a third of the time that the lamp has burned. A sensor without
 * noise moves by then too, so no noise is asked for.
 */
const RESTS = { leastS: 25, shareOfLit: 1 / 3 } as const;

const movesInLight: Ground = (facts) =>
  curesIn(facts).flatMap(({ fromS, toS }): readonly Finding[] => {
    let restS = 0;
    let sinceS = fromS;
    let counts: number | null = null;
    for (const { frame, actuators } of facts.ticks) {
      if (frame.timeS < fromS || frame.timeS > toS || !lampBurns(actuators)) continue;
      const { glassTemperature } = frame.counts;
      if (glassTemperature !== counts) [counts, sinceS] = [glassTemperature, frame.timeS];
      const allowedS = Math.max(RESTS.leastS, RESTS.shareOfLit * (frame.timeS - fromS));
      if (frame.timeS - sinceS > allowedS) restS = Math.max(restS, frame.timeS - sinceS);
    }
    return restS === 0
      ? []
      : [objects('temperature-in-doubt', say('lines.count-stood', { rest: secondsWords(restS) }))];
  });

export const TEMPERATURE_GROUNDS: readonly Ground[] = [
  withinLimits('glass temperature', 'glass sensor', 'glass-outside', celsiusWords),
  objectsAfter(SENSOR_ALARMS, 'temperature-in-doubt'),
  bothFollow,
  movesInLight,
];
