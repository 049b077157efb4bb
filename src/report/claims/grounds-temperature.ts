/** Whether the glass stayed within the profile's limits, and what shows that its sensor said so rightly. */
import { celsiusWords } from '../words.ts';
import { type Ground, notRecorded, objects, supports } from './claim.ts';
import { limitOf } from './claim-facts.ts';

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

const secondSensor: Ground = () => [notRecorded('a comparison of glass and heat sink')];

export const TEMPERATURE_GROUNDS: readonly Ground[] = [withinLimits, secondSensor];
