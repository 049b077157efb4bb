/** Whether the clock, on which every time and every dose rests, ran right. */
import type { AlarmId } from '../../core/alarm-ids.ts';
import { figure, type Saying } from '../../core/sayings.ts';
import { say } from '../language.ts';
import { lastMeasured, type MeasuredRow } from '../timeline.ts';
import { secondsWords } from '../words.ts';
import { type Finding, type Ground, lacks, notRecorded, objects, supports } from './claim.ts';
import type { ClaimFacts } from './claim-facts.ts';
import { objectsAfter } from './doubts.ts';

const CLOCK_ALARMS: readonly AlarmId[] = ['board-clock', 'frames-stand-still', 'frames-rare'];

/** As the alarm for the board's clock takes it; a requirement of the hazard analysis. */
const CLOCKS_WITHIN_RATIO = 0.01;

/** Null where the journal does not say, or the host gave no time. */
function clocksDiffer(measured: readonly MeasuredRow[]): { ratio: number; words: Saying } | null {
  const ratio = lastMeasured(measured, 'clockOffAtMostRatio');
  if (ratio === null) return null;
  const overS = lastMeasured(measured, 'clockComparedS');
  const percent = figure(`${(100 * ratio).toFixed(2)} %`);
  const words =
    overS === null
      ? say('lines.clocks-differ', { percent })
      : say('lines.clocks-differ-over', { percent, time: secondsWords(overS) });
  return { ratio, words };
}

const compared: Ground = (facts) => {
  const found = clocksDiffer(facts.measured);
  if (found === null) return [uncompared(facts)];
  const { ratio, words } = found;
  return ratio <= CLOCKS_WITHIN_RATIO
    ? [supports('board clock', words), supports('host clock', words)]
    : [objects('clock-off', words)];
};

const uncompared = (facts: ClaimFacts): Finding =>
  lastMeasured(facts.measured, 'longestFrameGapS') === null
    ? notRecorded(say('lines.clocks-comparison'), facts)
    : lacks(say('lines.clocks-too-short'));

/** For claims on times: the host's clock says the same. */
export const hostClockAgrees: Ground = (facts) => {
  const found = clocksDiffer(facts.measured);
  if (found === null) return [uncompared(facts)];
  return [
    found.ratio <= CLOCKS_WITHIN_RATIO ? supports('host clock', found.words) : lacks(found.words),
  ];
};

/** For claims on times, and on rates of change. */
export const clockTrusted: Ground = objectsAfter(CLOCK_ALARMS, 'clock-in-doubt');

export const CLOCK_GROUNDS: readonly Ground[] = [clockTrusted, compared];
