/**
 * When a claim of a record is false, by the plant's truth: one predicate for each, typed from what
 * the claim's words promise to a customer. A claim that is not *shown* is never false here.
 */
import type { ReportData } from '../../src/report/report-data.ts';
import { ATMOSPHERE_PA, type Job } from './jobs.ts';
import { doseMisstated, timesMisstated } from './stated.ts';
import type { Stretch, Truth } from './truth.ts';

export interface Seen {
  readonly truth: Truth;
  readonly job: Job;
  /** Contacts that would not have opened, whenever they were last proved. */
  readonly shorted: readonly string[];
}

/** Why the claim is false; null where it is true. */
type Falsity = (seen: Seen, portion: string | null) => string | null;

const JOULES_PER_M2 = 10; // in a mJ/cm2
const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;

/** The target of the profile is the dose that the resin needs, at the resin. */
const doseFalse: Falsity = ({ truth, job }, portion) => {
  const { profile } = job.settings.inputs as { profile: ProfileFile };
  const isPit = portion === 'pit';
  const section = isPit ? profile.pitCure : profile.cure;
  const needed = JOULES_PER_M2 * (section?.targetAtResinMJPerCm2 ?? Number.NaN);
  const given = isPit ? truth.pitJPerM2 : truth.fillJPerM2;
  return given >= needed ? null : `${percent(given / needed)} of the target reached the resin`;
};

interface ProfileFile {
  readonly cure: { readonly targetAtResinMJPerCm2: number };
  readonly pitCure?: { readonly targetAtResinMJPerCm2: number };
  readonly vacuum: { readonly setPointKPaAbs: number; readonly dwellS: number };
  readonly pressure: { readonly setPointKPaGauge: number; readonly dwellS: number };
}

/**
 * Whether there was a whole dwell is for another claim. A dwell is at its set-point where its mean
 * lies within the 5 kPa of the alarm's deadband and the transmitter's 1.5 kPa.
 */
const SHORT_PA = 6_500;

const pressureFalse: Falsity = ({ truth, job }) => {
  const { profile } = job.settings.inputs as { profile: ProfileFile };
  const vacuumPa = 1000 * profile.vacuum.setPointKPaAbs;
  const pressurePa = ATMOSPHERE_PA + 1000 * profile.pressure.setPointKPaGauge;
  const whole = (phase: Stretch['phase'], dwellS: number): readonly Stretch[] =>
    lastOfEachCycle(truth.stretches, phase).filter(({ trueS }) => trueS >= leastS(dwellS));
  const dwells = whole('vacuum-dwell', profile.vacuum.dwellS);
  const presses = whole('pressure-dwell', profile.pressure.dwellS);
  for (const dwell of dwells) {
    if (meanPa(dwell) > vacuumPa + SHORT_PA) return `vacuum of ${kPa(meanPa(dwell))} in truth`;
  }
  for (const dwell of presses) {
    if (meanPa(dwell) < pressurePa - SHORT_PA) return `pressure of ${kPa(meanPa(dwell))} in truth`;
  }
  return null;
};

const meanPa = ({ paS, trueS }: Stretch): number => paS / trueS;
const kPa = (pa: number): string => `${(pa / 1000).toFixed(1)} kPa abs`;

function lastOfEachCycle(
  stretches: readonly Stretch[],
  phase: Stretch['phase'],
): readonly Stretch[] {
  const last = new Map<number, Stretch>();
  for (const stretch of stretches) {
    if (stretch.phase === phase && stretch.trueS > 0) last.set(stretch.cycle, stretch);
  }
  return [...last.values()];
}

/** Dwells of the profile in true seconds: 1 % for the clock and two ticks for their ends. */
const leastS = (dwellS: number): number => 0.99 * dwellS - 0.1;

const heldFalse: Falsity = ({ truth, job }) => {
  const { profile } = job.settings.inputs as { profile: ProfileFile };
  const wanted = [
    ['vacuum-dwell', profile.vacuum.dwellS],
    ['pressure-dwell', profile.pressure.dwellS],
  ] as const;
  for (const [phase, dwellS] of wanted) {
    const longest = Math.max(0, ...lastOfEachCycle(truth.stretches, phase).map((s) => s.trueS));
    if (longest < leastS(dwellS)) return `${phase} held for ${longest.toFixed(1)} true s`;
  }
  return null;
};

const clockFalse: Falsity = ({ truth: { clockRatio } }) =>
  Math.abs(clockRatio - 1) > 0.015 ? `the board’s clock ran at ${clockRatio.toFixed(3)}` : null;

/** 12 to 40 °C in the light, by the profile; 2 K for a thermistor on glass. */
const GLASS = { coldestK: 273.15 + 12 - 2, hottestK: 273.15 + 40 + 2 } as const;

const temperatureFalse: Falsity = ({ truth: { coldestK, hottestK } }) => {
  if (coldestK === null || hottestK === null) return 'there was no cure';
  if (coldestK < GLASS.coldestK) return `glass at ${(coldestK - 273.15).toFixed(1)} °C`;
  return hottestK > GLASS.hottestK ? `glass at ${(hottestK - 273.15).toFixed(1)} °C` : null;
};

/** 0.005 Pa m3/s by the profile, at 295 K; half as much again for the test's own uncertainty. */
const LEAK_PA_M3_PER_S = 0.0075;
const RT_J_PER_MOL = 8.314462618 * 295.15;

const sealFalse: Falsity = ({ truth }) => {
  const tested = truth.stretches.findLast(
    ({ phase, trueS }) => phase === 'seal-watch' && trueS > 5,
  );
  if (tested === undefined) return 'the seal never was tested';
  const leak = (tested.inMol * RT_J_PER_MOL) / tested.trueS;
  return leak > LEAK_PA_M3_PER_S ? `${leak.toPrecision(2)} Pa m3/s came in` : null;
};

const filledFalse: Falsity = ({ truth }) =>
  truth.looksClear ? null : `resin in ${percent(truth.filledRatio)} of the break`;

/** The lamp goes out within 0.4 s of an opened shield. */
const DARK_WITHIN_S = 0.4;

const interlocksFalse: Falsity = ({ shorted, truth: { litOpenS } }) => {
  if (litOpenS > DARK_WITHIN_S) return `the lamp burned for ${litOpenS.toFixed(1)} s in the open`;
  return shorted.length > 0 ? `${shorted.join(' and ')} is shorted` : null;
};

export const FALSITIES = {
  filled: filledFalse,
  dose: doseFalse,
  pressure: pressureFalse,
  temperature: temperatureFalse,
  seal: sealFalse,
  held: heldFalse,
  clock: clockFalse,
  interlocks: interlocksFalse,
} as const satisfies Readonly<Record<string, Falsity>>;
export type JudgedClaim = keyof typeof FALSITIES;

export interface FalseClaim {
  readonly claim: JudgedClaim | 'stated dose' | 'stated times';
  readonly portion: string | null;
  readonly why: string;
}

interface Shown {
  readonly claim: JudgedClaim;
  readonly portion: string | null;
}

/** Every claim of the record that is *shown* and false, or states a figure that is. */
export const falseClaimsOf = (report: ReportData, seen: Seen): readonly FalseClaim[] =>
  shownIn(report).flatMap(({ claim, portion }): readonly FalseClaim[] => {
    const told = (name: FalseClaim['claim'], why: string | null): readonly FalseClaim[] =>
      why === null ? [] : [{ claim: name, portion, why }];
    return [
      ...told(claim, FALSITIES[claim](seen, portion)),
      ...told('stated dose', claim === 'dose' ? doseMisstated(report, seen.truth, portion) : null),
      ...told('stated times', claim === 'held' ? timesMisstated(report, seen.truth) : null),
    ];
  });

const isJudged = (id: string): id is JudgedClaim => Object.hasOwn(FALSITIES, id);

/** The claims of the record that the plant's truth can judge, as far as they are *shown*. */
export const shownIn = ({ claims }: ReportData): readonly Shown[] =>
  claims.flatMap(({ id, state, portion }) =>
    state === 'shown' && isJudged(id) ? [{ claim: id, portion }] : [],
  );
