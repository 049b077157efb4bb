/**
 * Advice for one break on one day: what to do first, which resin, which profile, and why, in plain
 * words. It joins the tables beside it. Whether the break may be repaired at all is left to
 * `assess.ts` and a person: advice never says that work can begin before they have agreed. The
 * unit's own limits are checked where profiles are loaded.
 */

import { celsiusFromK, kFromCelsius } from '../../core/units.ts';
import { dewPointK } from '../../core/water.ts';
import { type Resin, viscosityAtPaS } from '../resin.ts';
import { isRefused, type ResinRemark, resinRemarks } from '../resin-suitability.ts';
import type { IntakeSheet, Unknown } from '../sheet/intake-sheet.ts';
import { type FirstStep, firstSteps, type Site } from './advice-first.ts';
import { type AdvisedProfile, profileFor } from './advice-profile.ts';
import type { AdviceRules, FilledDamage } from './advice-rules.ts';

export interface AdviceQuestion {
  readonly sheet: IntakeSheet;
  readonly rules: AdviceRules;
  /** Bottles at hand, in any order. */
  readonly resins: readonly Resin[];
  readonly today: string;
  /** True when the assessment allows the repair and finds it feasible. */
  readonly permitted: boolean;
  /** The deepest vacuum that the unit's pump is asked for at this air pressure, Pa. */
  readonly deepestPa: (atmospherePa: number) => number;
  /** Highest rate at which this unit lets a damaged pane be warmed, K/s. */
  readonly heatingKPerS: number;
  /** Peak of the unit's lamp, nm. */
  readonly lampPeakNm: number;
  /** Of the lamp's even spot; null where the unit file states none. */
  readonly spotRadiusM: number | null;
}

export interface ResinAdvice {
  readonly name: string;
  readonly lot: string;
  /** On this glass; null where its temperature is not known. */
  readonly viscosityPaS: number | null;
  readonly remarks: readonly ResinRemark[];
  readonly suits: boolean;
}

export interface Advice {
  /**
   * `go`: permitted, work can begin. `first`: permitted after the listed preparation. `decide`: a
   * person must decide before anything begins. `person`: no profile can be advised.
   */
  readonly answer: 'go' | 'first' | 'decide' | 'person';
  readonly first: readonly FirstStep[];
  readonly window: { readonly lowestC: number; readonly highestC: number };
  /** Viscosity range that this damage needs, at the glass temperature. */
  readonly wanted: { readonly leastPaS: number; readonly mostPaS: number } | null;
  readonly resins: readonly ResinAdvice[];
  /** Index of the bottle to use; null where none suits. */
  readonly take: number | null;
  readonly profile: AdvisedProfile | null;
  readonly reasons: readonly string[];
}

const known = <T>(answer: T | Unknown): T | null => (answer === 'unknown' ? null : answer);
const inKelvin = (celsius: number | Unknown): number | null =>
  celsius === 'unknown' ? null : kFromCelsius(celsius);

export function advise(question: AdviceQuestion): Advice {
  const { sheet, rules, today } = question;
  const type = filledTypeOf(sheet);
  const glassK = inKelvin(sheet.conditions.glassC);
  const base = type === null ? null : rules.damage[type];
  const wanted =
    base === null ? null : { leastPaS: base.leastMPaS / 1000, mostPaS: base.mostMPaS / 1000 };
  const resins = question.resins.map((resin): ResinAdvice => {
    const viscosityPaS = glassK === null ? null : viscosityAtPaS(resin, glassK);
    const remarks = resinRemarks(resin, {
      today,
      board: null,
      use: 'fill',
      glassK,
      wanted,
      viscosityPaS,
      lampPeakNm: question.lampPeakNm,
    });
    const { name, lot } = resin;
    return { name, lot, viscosityPaS, remarks, suits: !isRefused(remarks) };
  });
  const take = bestOf(resins);
  const bottle = take === null ? null : (question.resins[take] ?? null);
  const window = windowOf(rules, bottle ?? question.resins[0] ?? null);
  const first = firstSteps(siteOf(question, window));
  const advised = type === null ? null : profileOf(question, type, window, resins[take ?? -1]);
  const tooWide = tooWideWords(question);
  return {
    answer: tooWide === null ? answerOf(question.permitted, advised, first) : 'person',
    first,
    window,
    wanted,
    resins,
    take,
    profile: advised,
    reasons: [
      ...(type === null ? [noProfileWords(sheet)] : []),
      ...(tooWide === null ? [] : [tooWide]),
      ...(advised?.reasons ?? []),
      ...(advised?.beyondPractice
        ? [
            'This is more pressure time than practice allows: warm the resin to thin it, fill section by section, or have a person decide.',
          ]
        : []),
      ...(question.resins.length > 0 && take === null ? ['No bottle at hand suits this job.'] : []),
    ],
  };
}

function answerOf(
  permitted: boolean,
  profile: AdvisedProfile | null,
  first: readonly FirstStep[],
): Advice['answer'] {
  if (profile === null || profile.beyondPractice) return 'person';
  if (!permitted) return 'decide';
  return first.some(({ weight }) => weight === 'must') ? 'first' : 'go';
}

/** Kinds of damage that have a gap to fill and a known flow path. */
function filledTypeOf({ damage }: IntakeSheet): FilledDamage | null {
  const { type } = damage;
  if (type === 'unknown' || type === 'surface-pit') return null;
  return runMmOf(damage) === null ? null : type;
}

function runMmOf({ type, diameterMm, longestLegMm }: IntakeSheet['damage']): number | null {
  const radius = type === 'bullseye' || type === 'half-moon';
  if (!radius) return known(longestLegMm);
  return diameterMm === 'unknown' ? null : diameterMm / 2;
}

/** `run` refuses such a job: it is told before the repair is agreed on. */
function tooWideWords({ sheet: { damage }, spotRadiusM }: AdviceQuestion): string | null {
  const radiusMm = Math.max((known(damage.diameterMm) ?? 0) / 2, known(damage.longestLegMm) ?? 0);
  if (spotRadiusM === null || radiusMm <= spotRadiusM * 1000) return null;
  return `The break is ${(2 * radiusMm).toFixed(1)} mm across the pit, the lamp's even spot ${(2000 * spotRadiusM).toFixed(1)} mm, and this unit cures one spot a job. Do not fill it with this unit: use a lamp with a larger spot, or refer the pane for replacement.`;
}

function noProfileWords({ damage }: IntakeSheet): string {
  if (damage.type === 'surface-pit')
    return 'A surface pit has no gap to draw air from: pit resin, film and light alone, by hand.';
  return 'The kind or length of the damage is not known: no profile can be calculated.';
}

/** The suitable bottle with the fewest remarks; of two equal ones the thinner. */
function bestOf(resins: readonly ResinAdvice[]): number | null {
  const order = resins
    .map((resin, index) => ({ resin, index }))
    .filter(({ resin }) => resin.suits)
    .sort(
      (one, other) =>
        one.resin.remarks.length - other.resin.remarks.length ||
        (one.resin.viscosityPaS ?? 0) - (other.resin.viscosityPaS ?? 0),
    );
  return order[0]?.index ?? null;
}

/** The window in which both the rules and the resin allow the work. */
function windowOf({ glass }: AdviceRules, resin: Resin | null): Advice['window'] {
  if (resin === null) return glass;
  const tight = {
    lowestC: Math.max(glass.lowestC, celsiusFromK(resin.glass.lowestK)),
    highestC: Math.min(glass.highestC, celsiusFromK(resin.glass.highestK)),
  };
  return tight.lowestC + 5 <= tight.highestC ? tight : glass;
}

function siteOf({ sheet, rules, heatingKPerS }: AdviceQuestion, window: Advice['window']): Site {
  const { glassC, airC, humidityPercent } = sheet.conditions;
  const airK = inKelvin(airC);
  const humidityRatio = humidityPercent === 'unknown' ? null : humidityPercent / 100;
  const canSettle = airK !== null && humidityRatio !== null && humidityRatio > 0;
  return {
    glassK: inKelvin(glassC),
    airK,
    humidityRatio,
    dewPointK: canSettle ? dewPointK(airK, humidityRatio) : null,
    window: { lowestK: kFromCelsius(window.lowestC), highestK: kFromCelsius(window.highestC) },
    aboveDewPointK: rules.aboveDewPointK,
    humidAirRatio: rules.humidAirPercent / 100,
    oldBreakDays: rules.oldBreakDays,
    moisture: sheet.damage.moisture,
    contamination: sheet.damage.contamination,
    ageDays: known(sheet.damage.ageDays),
    heatingKPerS,
  };
}

function profileOf(
  { sheet, rules, deepestPa }: AdviceQuestion,
  type: FilledDamage,
  window: Advice['window'],
  resin: ResinAdvice | undefined,
): AdvisedProfile | null {
  const runMm = runMmOf(sheet.damage);
  if (runMm === null) return null;
  const { airKPa } = sheet.conditions;
  const atmospherePa = airKPa === 'unknown' ? null : airKPa * 1000;
  return profileFor({
    rules,
    type,
    runM: runMm / 1000,
    legM: runMm / 1000,
    viscosityPaS: resin?.viscosityPaS ?? null,
    air: atmospherePa === null ? null : { atmospherePa, deepestPa: deepestPa(atmospherePa) },
    window,
    source: `advised: ${rules.source}`.slice(0, 200),
  });
}
