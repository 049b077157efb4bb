/**
 * The chamber's air: its pressure within the profile's limits, a seal that holds, and vacuum and
 * pressure held for their time.
 */
import type { AlarmId } from '../../core/alarm-ids.ts';
import { numberAt } from '../../core/fields.ts';
import { HOLDING_SET_POINT, type PhaseId } from '../../core/phases.ts';
import { type Filling, figure, recorded } from '../../core/sayings.ts';
import { say } from '../language.ts';
import { curedPortionsOf } from '../report-dose.ts';
import { lastMeasured } from '../timeline.ts';
import { clockWords, kPaAbs, leakWords, secondsWords, shareWords } from '../words.ts';
import { type Finding, type Ground, lacks, notRecorded, objects, supports } from './claim.ts';
import { objectsAfter } from './doubts.ts';
import { clockTrusted, hostClockAgrees } from './grounds-clock.ts';
import { withinLimits } from './within-limits.ts';

/** Alarms of a pressure that did not follow the pump or the vent. */
const SENSOR_ALARMS: readonly AlarmId[] = [
  'pump-no-effect',
  'vent-no-effect',
  'not-vented',
  'pressure-sensor',
];

/** A leak that the pump hides, and a sensor that lies, fall behind the pump's work alike. */
const followsPump: Ground = (facts) => {
  const { measured, alarms } = facts;
  const ratio = lastMeasured(measured, 'pumpStrengthRatio');
  if (ratio === null) return [notRecorded(say('lines.pump-work'), facts)];
  if (alarms.some(({ alarm }) => alarm === 'pump-no-effect')) return [];
  return [supports('pump', say('lines.followed-pump', { share: shareWords(ratio) }))];
};

/** The most that weather changes the air between two jobs, and within a day; from memory. */
const AIR_WITHIN_PA = { lastJob: 3_000, stated: 2_000 } as const;

/** The sensor's zero from power-up on: without it an offset passes for altitude. */
const zeroKnown: Ground = ({ measured, atmospherePa, about }) => {
  if (atmospherePa === null) return [];
  const known = [
    {
      by: 'lines.air-by-last-job',
      pa: lastMeasured(measured, 'airLastJobPa'),
      within: AIR_WITHIN_PA.lastJob,
    },
    { by: 'lines.air-by-sheet', pa: about.stated.airPa, within: AIR_WITHIN_PA.stated },
  ] as const;
  const told = known.flatMap(({ by, pa, within }) =>
    pa === null
      ? []
      : [
          {
            words: say(by, { air: figure(kPaAbs(atmospherePa)), known: figure(kPaAbs(pa)) }),
            near: Math.abs(atmospherePa - pa) <= within,
          },
        ],
  );
  if (told.length === 0) return [lacks(say('lines.air-unknown'))];
  return told.map(({ words, near }) => (near ? supports('known air', words) : lacks(words)));
};

/** They are entered only once the vented reading was back at the job's zero. */
const AFTER_ZERO: ReadonlySet<PhaseId> = new Set<PhaseId>(['pressurise', 'ask-clear']);

/** A reading that drifts shows it when the chamber is next open to the air, and not before. */
const zeroSeenAgain: Ground = ({ phases }) => {
  const last = phases.findLastIndex(({ phase }) => HOLDING_SET_POINT.has(phase));
  if (last < 0 || phases.slice(last + 1).some(({ phase }) => AFTER_ZERO.has(phase))) return [];
  return [objects('zero-not-seen-again', say('lines.zero-not-seen'))];
};

const tightAtLast: Ground = ({ sealTests, measured, limits }) => {
  const last = sealTests.findLast(({ under }) => under === 'vacuum');
  const row = limits.find(({ what }) => what === 'seal leak');
  const seen = row?.highestSeen ?? null;
  const leak = seen === null ? '' : say('lines.leak', { leak: figure(leakWords(seen)) });
  const most = row?.highestAllowed ?? null;
  const figures = {
    leak,
    most: most === null ? '' : say('lines.leak-most', { most: figure(leakWords(most)) }),
  };
  if (row?.within === false) return [objects('leaks', say('lines.seal-last', figures))];
  if (last === undefined) {
    const found = measured.find(({ name }) => name === 'leakRatePaM3PerS');
    return found === undefined || row?.within !== true
      ? []
      : [
          supports(
            'pressure sensor',
            say('lines.seal-test', { at: clockWords(found.atS), ...figures }),
          ),
        ];
  }
  const { finding, why } = last;
  const found = { at: clockWords(last.atS), finding: say(`findings.${finding}`), ...figures };
  if (finding === 'tight') return [supports('pressure sensor', say('lines.seal-found', found))];
  const line = say('lines.seal-found-why', { ...found, why: recorded(why) });
  return [objects(finding === 'leak' ? 'leaks' : 'outgassed', line)];
};

/** Suction holds the foot down in the other test; a seal is pressed dry where its profile asks. */
const holdsPressed: Ground = ({ sealTests }) => {
  const last = sealTests.findLast(({ under }) => under === 'pressure');
  if (last === undefined) return [];
  const { atS, finding, why } = last;
  const found = { at: clockWords(atS), finding: say(`findings.${finding}`) };
  return finding === 'tight'
    ? [supports('pressure sensor', say('lines.seal-pressed', found))]
    : [objects('leaks', say('lines.seal-pressed-why', { ...found, why: recorded(why) }))];
};

/** The whole of each dwell that the profile asks for, in every cycle that was run. */
const dwells: Ground = (facts) => {
  const { cycles, inputs } = facts;
  if (cycles.length === 0) return [objects('held-too-short', say('lines.no-cycle'))];
  return cycles.flatMap((row): readonly Finding[] => [
    dwell(
      'lines.vacuum-held',
      row.cycle,
      row.vacuumHeldS,
      row.vacuumReachedPa,
      askedS(inputs.profile, 'vacuum'),
    ),
    dwell(
      'lines.pressure-held',
      row.cycle,
      row.pressureHeldS,
      row.pressureReachedPa,
      askedS(inputs.profile, 'pressure'),
    ),
  ]);
};

const askedS = (profile: unknown, part: 'vacuum' | 'pressure'): number | null =>
  numberAt(profile, part, 'dwellS');

/** A time is known to a tick; board and journal may round it the other way. */
const TICK_S = 0.05;

function dwell(
  held: 'lines.vacuum-held' | 'lines.pressure-held',
  cycle: number,
  heldS: number,
  reachedPa: number | null,
  leastS: number | null,
): Finding {
  const words = say(held, {
    cycle: String(cycle),
    held: secondsWords(heldS),
    asked: leastS === null ? '' : say('lines.held-asked', { asked: secondsWords(leastS) }),
  });
  if (reachedPa === null) {
    return objects('held-too-short', say('lines.not-to-its-end', { dwell: words }));
  }
  return leastS !== null && heldS < leastS - TICK_S
    ? objects('held-too-short', words)
    : supports('board clock', words);
}

const lampTime: Ground = ({ limits, inputs }) =>
  curedPortionsOf(inputs.profile).flatMap((portion) => {
    const { what, line } = LAMP_LINES[portion];
    const row = limits.find((one) => one.what === what);
    if (row === undefined || row.within === null) return [];
    const written = (s: number | null): Filling =>
      s === null ? say('lines.not-stated') : secondsWords(s);
    const words = say(line, {
      seen: written(row.highestSeen),
      least: written(row.lowestAllowed),
      most: written(row.highestAllowed),
    });
    return [row.within ? supports('board clock', words) : objects('held-too-short', words)];
  });

const LAMP_LINES = {
  'fill and pit': { what: 'lamp on', line: 'lines.lamp-on' },
  fill: { what: 'lamp on, fill', line: 'lines.lamp-on-fill' },
  pit: { what: 'lamp on, pit', line: 'lines.lamp-on-pit' },
} as const;

export const PRESSURE_GROUNDS: readonly Ground[] = [
  withinLimits('chamber pressure', 'pressure sensor', 'pressure-outside', kPaAbs),
  objectsAfter(SENSOR_ALARMS, 'pressure-in-doubt'),
  followsPump,
  zeroKnown,
  zeroSeenAgain,
];
export const SEAL_GROUNDS: readonly Ground[] = [
  tightAtLast,
  holdsPressed,
  objectsAfter(['leak-in-dwell'], 'leaked-in-dwell'),
  followsPump,
  clockTrusted,
];
export const HELD_GROUNDS: readonly Ground[] = [dwells, lampTime, clockTrusted, hostClockAgrees];
