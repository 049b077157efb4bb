/**
 * The chamber's air: its pressure within the profile's limits, a seal that holds, and vacuum and
 * pressure held for their time.
 */
import type { AlarmId } from '../../core/alarm-ids.ts';
import { numberAt } from '../../core/fields.ts';
import { HOLDING_SET_POINT, type PhaseId } from '../../core/phases.ts';
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
  if (ratio === null) return [notRecorded('what the pump’s work says of the pressure', facts)];
  if (alarms.some(({ alarm }) => alarm === 'pump-no-effect')) return [];
  return [
    supports('pump', `followed the pump’s work; it showed ${shareWords(ratio)} of its data sheet`),
  ];
};

/** The most that weather changes the air between two jobs, and within a day; from memory. */
const AIR_WITHIN_PA = { lastJob: 3_000, stated: 2_000 } as const;

/** The sensor's zero from power-up on: without it an offset passes for altitude. */
const zeroKnown: Ground = ({ measured, atmospherePa, about }) => {
  if (atmospherePa === null) return [];
  const known = [
    {
      what: 'the unit’s last job',
      pa: lastMeasured(measured, 'airLastJobPa'),
      within: AIR_WITHIN_PA.lastJob,
    },
    { what: 'the intake sheet', pa: about.stated.airPa, within: AIR_WITHIN_PA.stated },
  ];
  const told = known.flatMap(({ what, pa, within }) =>
    pa === null
      ? []
      : [
          {
            words: `air ${kPaAbs(atmospherePa)}; by ${what} ${kPaAbs(pa)}`,
            near: Math.abs(atmospherePa - pa) <= within,
          },
        ],
  );
  if (told.length === 0)
    return [lacks('the air is known neither from a job before nor from the intake sheet')];
  return told.map(({ words, near }) => (near ? supports('known air', words) : lacks(words)));
};

/** They are entered only once the vented reading was back at the job's zero. */
const AFTER_ZERO: ReadonlySet<PhaseId> = new Set<PhaseId>(['pressurise', 'ask-clear']);

/** A reading that drifts shows it when the chamber is next open to the air, and not before. */
const zeroSeenAgain: Ground = ({ phases }) => {
  const last = phases.findLastIndex(({ phase }) => HOLDING_SET_POINT.has(phase));
  if (last < 0 || phases.slice(last + 1).some(({ phase }) => AFTER_ZERO.has(phase))) return [];
  return [
    objects('zero-not-seen-again', 'the chamber was not seen at its zero after the last load'),
  ];
};

const tightAtLast: Ground = ({ sealTests, measured, limits }) => {
  const last = sealTests.at(-1);
  const row = limits.find(({ what }) => what === 'seal leak');
  const seen = row?.highestSeen ?? null;
  const leak = seen === null ? '' : `, leak rate ${leakWords(seen)}`;
  const most = row?.highestAllowed ?? null;
  const words = `${leak}${most === null ? '' : `, at most ${leakWords(most)} allowed`}`;
  if (row?.within === false) return [objects('leaks', `last test of the seal${words}`)];
  if (last === undefined) {
    const found = measured.find(({ name }) => name === 'leakRatePaM3PerS');
    return found === undefined || row?.within !== true
      ? []
      : [supports('pressure sensor', `test at ${clockWords(found.atS)} min${words}`)];
  }
  const found = `test at ${clockWords(last.atS)} min: ${last.finding}${words}`;
  return last.finding === 'tight'
    ? [supports('pressure sensor', found)]
    : [objects(last.finding === 'leak' ? 'leaks' : 'outgassed', `${found}: ${last.why}`)];
};

/** The whole of each dwell that the profile asks for, in every cycle that was run. */
const dwells: Ground = (facts) => {
  const { cycles, inputs } = facts;
  if (cycles.length === 0) return [objects('held-too-short', 'no cycle was begun')];
  return cycles.flatMap((row): readonly Finding[] => [
    dwell(
      `cycle ${row.cycle}, vacuum`,
      row.vacuumHeldS,
      row.vacuumReachedPa,
      askedS(inputs.profile, 'vacuum'),
    ),
    dwell(
      `cycle ${row.cycle}, pressure`,
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
  what: string,
  heldS: number,
  reachedPa: number | null,
  leastS: number | null,
): Finding {
  const asked = leastS === null ? '' : `, ${secondsWords(leastS)} asked`;
  const words = `${what}: held for ${secondsWords(heldS)}${asked}`;
  if (reachedPa === null) return objects('held-too-short', `${words}; not held to its end`);
  return leastS !== null && heldS < leastS - TICK_S
    ? objects('held-too-short', words)
    : supports('board clock', words);
}

const lampTime: Ground = ({ limits, inputs }) =>
  curedPortionsOf(inputs.profile).flatMap((portion) => {
    const what = portion === 'fill and pit' ? 'lamp on' : (`lamp on, ${portion}` as const);
    const row = limits.find((one) => one.what === what);
    if (row === undefined || row.within === null) return [];
    const [seen, least, most] = [row.highestSeen, row.lowestAllowed, row.highestAllowed].map((s) =>
      s === null ? 'not stated' : secondsWords(s),
    );
    const words = `${what} for ${seen}, ${least} to ${most} allowed`;
    return [row.within ? supports('board clock', words) : objects('held-too-short', words)];
  });

export const PRESSURE_GROUNDS: readonly Ground[] = [
  withinLimits('chamber pressure', 'pressure sensor', 'pressure-outside', kPaAbs),
  objectsAfter(SENSOR_ALARMS, 'pressure-in-doubt'),
  followsPump,
  zeroKnown,
  zeroSeenAgain,
];
export const SEAL_GROUNDS: readonly Ground[] = [
  tightAtLast,
  objectsAfter(['leak-in-dwell'], 'leaked-in-dwell'),
  followsPump,
  clockTrusted,
];
export const HELD_GROUNDS: readonly Ground[] = [dwells, lampTime, clockTrusted, hostClockAgrees];
