/**
 * Calculates set-points, dwells and cycles for one break from the advice rules. Filling a narrow
 * gap takes a time proportional to the resin's viscosity and to the square of the length (plane
 * Poiseuille flow, t = 6 mu L2 / (h2 dp)). Pressure may use only a share of the stress at which
 * legs grow. The result is a profile file and the reasons for each difference from the rules' own
 * figures.
 */
import { kPaFromPa } from '../../core/units.ts';
import type { AdviceRules, DamageAdvice, FilledDamage } from './advice-rules.ts';

export interface ProfileQuestion {
  readonly rules: AdviceRules;
  readonly type: FilledDamage;
  /** Distance that the resin must flow, m. */
  readonly runM: number;
  /** Longest leg or radius, which the pressure opens, m. */
  readonly legM: number;
  /** At the glass temperature; null where resin or temperature is not known. */
  readonly viscosityPaS: number | null;
  /**
   * Local air pressure, and the deepest vacuum that the pump is asked for at that pressure; null
   * where unknown.
   */
  readonly air: { readonly atmospherePa: number; readonly deepestPa: number } | null;
  readonly window: { readonly lowestC: number; readonly highestC: number };
  /** Written at the head of the file. */
  readonly source: string;
}

export interface AdvisedProfile {
  /** As a profile file of schema meniscus/profile@1. */
  readonly file: Readonly<Record<string, unknown>>;
  readonly reasons: readonly string[];
  /** Needs more pressure time than the rules allow: fill section by section, or not at all. */
  readonly beyondPractice: boolean;
}

export function profileFor(question: ProfileQuestion): AdvisedProfile {
  const { rules, type, window, source } = question;
  const base = rules.damage[type];
  const time = pressureTimeOf(question, base);
  const pressure = pressureOf(question, base);
  const vacuum = vacuumOf(question);
  const planned = Math.min(rules.cycles.most, time.cycles + vacuum.extraCycles);
  return {
    file: {
      schema: 'meniscus/profile@1',
      name: `advised for a ${type}`,
      source,
      sealCheck: rules.sealCheck,
      vacuum: {
        ...rules.vacuum,
        setPointKPaAbs: vacuum.setPointKPaAbs,
        dwellS: base.vacuumDwellS,
      },
      pressure: {
        setPointKPaGauge: pressure.setPointKPaGauge,
        highestKPaGauge: rules.pressure.highestKPaGauge,
        reachWithinS: rules.pressure.reachWithinS,
        dwellS: time.dwellS,
        restS: rules.pressure.restS,
      },
      cycles: { planned, extra: rules.cycles.extra },
      glass: window,
      cure: rules.cure,
      notClearAdvice: time.ratio > 1.5 ? 'warm-the-pane' : 'another-cycle',
    },
    reasons: [...time.reasons, ...pressure.reasons, ...vacuum.reasons],
    beyondPractice: time.beyondPractice,
  };
}

/** Dwells are rounded to values that a person would set. */
const STEP_S = 10;

function pressureTimeOf({ rules, runM, viscosityPaS }: ProfileQuestion, base: DamageAdvice) {
  const { leastDwellS, longestDwellS } = rules.pressure;
  const thickness =
    viscosityPaS === null ? 1 : (viscosityPaS * 1000) / rules.reference.viscosityMPaS;
  const length = (runM * 1000) / base.runMm;
  const ratio = thickness * length ** 2;
  const inAllS = base.cycles * base.pressureDwellS * ratio;
  const needed = Math.max(base.cycles, Math.ceil(inAllS / longestDwellS));
  const cycles = Math.min(rules.cycles.most, needed);
  const dwellS = Math.min(
    longestDwellS,
    Math.max(leastDwellS, Math.ceil(inAllS / cycles / STEP_S) * STEP_S),
  );
  const beyondPractice = inAllS > rules.cycles.most * longestDwellS;
  const reasons = [
    ...(viscosityPaS === null
      ? ['The viscosity on this glass is not known: the dwell is for the reference resin.']
      : [
          `The resin has ${(viscosityPaS * 1000).toFixed(0)} mPa s on this glass, ${thickness.toFixed(2)} times the reference; the filling time scales with it.`,
        ]),
    `The resin flows ${(runM * 1000).toFixed(0)} mm; the dwell is meant for ${base.runMm} mm. The time scales with the length squared, here ${(length ** 2).toFixed(2)}.`,
    `Pressure is therefore held for ${dwellS} s in each of ${cycles} cycles.`,
  ];
  return { dwellS, cycles, ratio, beyondPractice, reasons };
}

/** A crack from a free edge under pressure: K = 1.12 p sqrt(pi a), an upper bound (from memory). */
const EDGE_CRACK_FACTOR = 1.12;

function pressureOf({ rules, legM }: ProfileQuestion, base: DamageAdvice) {
  const share = rules.kShareOfSlowGrowth * rules.slowGrowthMPaSqrtM * 1e6;
  const mostKPa = kPaFromPa(share / (EDGE_CRACK_FACTOR * Math.sqrt(Math.PI * legM)));
  const setPointKPaGauge = Math.max(20, Math.min(base.pressureKPaGauge, Math.floor(mostKPa)));
  const reasons =
    setPointKPaGauge < base.pressureKPaGauge
      ? [
          `Pressure opens a leg of ${(legM * 1000).toFixed(0)} mm further: ${setPointKPaGauge} kPa instead of ${base.pressureKPaGauge} keeps it at ${(rules.kShareOfSlowGrowth * 100).toFixed(0)} % of slow growth (upper bound).`,
        ]
      : [];
  return { setPointKPaGauge, reasons };
}

function vacuumOf({ rules, air }: ProfileQuestion) {
  const asked = rules.vacuum.setPointKPaAbs;
  if (air === null) {
    return {
      setPointKPaAbs: asked,
      extraCycles: 0,
      reasons: ['The local air pressure is not known: the unit measures it and adapts.'],
    };
  }
  const setPointKPaAbs = Math.max(asked, Math.ceil(kPaFromPa(air.deepestPa)));
  const left = setPointKPaAbs / kPaFromPa(air.atmospherePa);
  const leftAtReference = asked / rules.reference.airKPa;
  // Each cycle leaves the same share again, so one more cycle makes up for a fifth more air.
  const extraCycles = left > 1.2 * leftAtReference ? 1 : 0;
  const reasons =
    extraCycles === 0 && setPointKPaAbs === asked
      ? []
      : [
          `Local air pressure is ${kPaFromPa(air.atmospherePa).toFixed(1)} kPa: a vacuum of ${setPointKPaAbs} kPa abs leaves ${(left * 100).toFixed(0)} % of it in the break${extraCycles === 0 ? '' : ', so one more cycle'}.`,
        ];
  return { setPointKPaAbs, extraCycles, reasons };
}
