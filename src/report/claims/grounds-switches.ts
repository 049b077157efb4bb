/**
 * Whether the shield was closed while the lamp burned, and whether the safety switches are known to
 * work: a contact that was never seen to move is not trusted.
 */
import type { AlarmId } from '../../core/alarm-ids.ts';
import { lampBurns } from '../../core/frame.ts';
import { recorded } from '../../core/sayings.ts';
import { say } from '../language.ts';
import { clockWords } from '../words.ts';
import { type Finding, type Ground, notInHeader, objects, supports } from './claim.ts';
import { curesIn } from './claim-facts.ts';
import { objectsAfter } from './doubts.ts';

const closedWithLight: Ground = ({ ticks }) => {
  const lit = ticks.filter(({ actuators }) => lampBurns(actuators));
  if (lit.length === 0) return [];
  const open = lit.find(({ frame }) => !frame.switches.shieldClosed);
  return open === undefined
    ? [supports('shield switch', say('lines.shield-closed', { frames: `${lit.length}` }))]
    : [
        objects(
          'lamp-with-shield-open',
          say('lines.shield-open-lit', { at: clockWords(open.frame.timeS) }),
        ),
      ];
};

/** Between two cures as well: a contact may weld at any time. */
const openBefore: Ground = (facts) => {
  const { ticks } = facts;
  const cures = curesIn(facts);
  return cures.flatMap(({ fromS }, index): readonly Finding[] => {
    const sinceS = cures[index - 1]?.toS ?? 0;
    const seen = ticks.findLast(
      ({ frame }) => !frame.switches.shieldClosed && frame.timeS >= sinceS && frame.timeS <= fromS,
    );
    const at = clockWords(fromS);
    if (seen === undefined) {
      return [objects('shield-never-open', say('lines.shield-closed-before', { at }))];
    }
    const until = clockWords(seen.frame.timeS);
    return [supports('shield switch', say('lines.shield-open-before', { until, at }))];
  });
};

/** States of `src/care/interval.ts` in which a proof is in force. */
const IN_FORCE = ['in-order', 'due-soon'];

/**
 * No repair moves stop and over-pressure switch: a person opens them on purpose for their proof.
 * The stop's other contact, which cuts the supply, is proved at bring-up only.
 */
const proved: Ground = ({ about: { care } }) => {
  const row = care?.find(({ item }) => item === 'interlocks');
  if (row === undefined) return [notInHeader(say('lines.switch-proof'))];
  const words = say('lines.switches', { state: recorded(row.words) });
  return row.due !== null && IN_FORCE.includes(row.due)
    ? [supports('proof test', words)]
    : [objects('switches-unproved', words)];
};

/** An open shield cuts the lamp's supply itself: light that fails may be a contact that lies. */
const SHIELD_DOUBTS: readonly AlarmId[] = ['lamp-no-light'];

export const SWITCH_GROUNDS: readonly Ground[] = [
  closedWithLight,
  objectsAfter(SHIELD_DOUBTS, 'shield-in-doubt'),
  openBefore,
  proved,
];
