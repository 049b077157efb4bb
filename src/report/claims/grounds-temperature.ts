/**
 * Whether the glass stayed within the profile's limits, and what shows that its sensor said so
 * rightly: it agreed with the air and with the heat sink at rest, and moved when the lamp burned.
 */
import type { AlarmId } from '../../core/alarm-ids.ts';
import { lastMeasured } from '../timeline.ts';
import { celsiusWords } from '../words.ts';
import { type Ground, lacks, notRecorded, objects, supports } from './claim.ts';
import { limitOf } from './claim-facts.ts';
import { objectsAfter } from './doubts.ts';

const SENSOR_ALARMS: readonly AlarmId[] = [
  'heat-sink-cold',
  'heat-sink-warm',
  'glass-not-warmed',
  'temperatures-apart',
];

const withinLimits: Ground = (facts) => {
  const row = limitOf(facts, 'glass temperature');
  if (row === undefined || row.within === null) return [];
  const [low, high, least, most] = [
    row.lowestSeen,
    row.highestSeen,
    row.lowestAllowed,
    row.highestAllowed,
  ].map((k) => (k === null ? 'no limit' : celsiusWords(k)));
  const words = `${low} to ${high} seen, ${least} to ${most} allowed`;
  return row.within ? [supports('glass sensor', words)] : [objects('glass-outside', words)];
};

/**
 * The glass must have been seen to warm by a third of what is usual for its light, whose absorption
 * is known no better, and by more than noise leaves of the smoothed reading: a light too short to
 * warm it shows nothing about its sensor.
 */
const SEEN_TO_WARM = { shareOfUsual: 1 / 3, leastK: 0.3 } as const;

/** The alarms judge how far apart is too far; without one of them the figures stand. */
const bothFollow: Ground = (facts) => {
  const { measured } = facts;
  const kelvin = (name: Parameters<typeof lastMeasured>[1]): string | null => {
    const value = lastMeasured(measured, name);
    return value === null ? null : value.toFixed(1);
  };
  const [glassAtRest, sinkAtRest] = [kelvin('glassOverAirK'), kelvin('heatSinkOverAirK')];
  const [glass, sink] = [kelvin('glassWarmedK'), kelvin('heatSinkWarmedK')];
  if (glassAtRest === null || sinkAtRest === null || glass === null || sink === null) {
    return [notRecorded('how glass and heat sink stood to the air and followed the lamp', facts)];
  }
  const warmedK = lastMeasured(measured, 'glassWarmedK') ?? 0;
  const usualK = lastMeasured(measured, 'glassUsuallyWarmedK') ?? 0;
  if (warmedK < Math.max(SEEN_TO_WARM.leastK, SEEN_TO_WARM.shareOfUsual * usualK)) {
    return [
      lacks(
        `the lamp warmed the glass by ${glass} K (usual ${usualK.toFixed(1)} K): too little to show that its sensor sits on it and moves`,
      ),
    ];
  }
  const usual = kelvin('heatSinkUsuallyWarmedK');
  return [
    supports(
      'heat sink sensor',
      `at rest ${sinkAtRest} K above the air, glass ${glassAtRest} K; the lamp warmed it by ${sink} K${usual === null ? '' : ` (usual ${usual} K)`}, the glass by ${glass} K`,
    ),
  ];
};

export const TEMPERATURE_GROUNDS: readonly Ground[] = [
  withinLimits,
  objectsAfter(SENSOR_ALARMS, 'temperature-in-doubt'),
  bothFollow,
];
