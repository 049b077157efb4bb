/**
 * Set-points, dwells and cycles for one break, reckoned from the advice rules: resin runs into a
 * narrow gap in a time that goes with its viscosity and with the length squared (plane Poiseuille
 * flow, t = 6 mu L2 / (h2 dp)), and pressure may use only a share of the stress at which legs grow.
 * Gives a profile file and the reasons for what differs from the rules' own figures.
 */
import { kPaFromPa } from '../../core/units.ts';
import type { AdviceRules, DamageAdvice, FilledDamage } from './advice-rules.ts';

export interface ProfileQuestion {
  readonly rules: AdviceRules;
  readonly type: FilledDamage;
  /** How far resin must run, m. */
  readonly runM: number;
  /** Longest leg or radius, which pressure opens, m. */
  readonly legM: number;
  /** At the temperature of the glass; null where resin or temperature is not known. */
  readonly viscosityPaS: number | null;
  /** Pressure of the air here, and the deepest vacuum that the pump is asked for in it; null where unknown. */
  readonly air: { readonly atmospherePa: number; readonly deepestPa: number } | null;
  readonly window: { readonly lowestC: number; readonly highestC: number };
  /** For the head of the file. */
  readonly source: string;
}

export interface AdvisedProfile {
  /** As a profile file of schema meniscus/profile@1. */
  readonly file: Readonly<Record<string, unknown>>;
  readonly reasons: readonly string[];
  /** More pressure time than the rules allow: filled section by section, or not at all. */
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

/** Dwells are rounded to what a person would set. */
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
      ? ['Viscosity on this glass is not known: the dwell is that of the reference resin.']
      : [
          `Resin has ${(viscosityPaS * 1000).toFixed(0)} mPa s on this glass, ${thickness.toFixed(2)} of the reference: filling takes that much longer.`,
        ]),
    `Resin runs ${(runM * 1000).toFixed(0)} mm, the dwell is meant for ${base.runMm} mm; time goes with the length squared, here ${(length ** 2).toFixed(2)}.`,
    `So pressure is held ${dwellS} s in each of ${cycles} cycles.`,
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
          `A leg of ${(legM * 1000).toFixed(0)} mm is opened more by pressure: ${setPointKPaGauge} kPa in place of ${base.pressureKPaGauge} keeps it at ${(rules.kShareOfSlowGrowth * 100).toFixed(0)} % of slow growth (upper bound).`,
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
      reasons: ['Pressure of the air is not known here: the unit measures it and adapts.'],
    };
  }
  const setPointKPaAbs = Math.max(asked, Math.ceil(kPaFromPa(air.deepestPa)));
  const left = setPointKPaAbs / kPaFromPa(air.atmospherePa);
  const leftAtReference = asked / rules.reference.airKPa;
  // Each cycle leaves the same share again, so a fifth more air is made up for by one more.
  const extraCycles = left > 1.2 * leftAtReference ? 1 : 0;
  const reasons =
    extraCycles === 0 && setPointKPaAbs === asked
      ? []
      : [
          `Air here is ${kPaFromPa(air.atmospherePa).toFixed(1)} kPa: a vacuum of ${setPointKPaAbs} kPa abs leaves ${(left * 100).toFixed(0)} % of it in the break${extraCycles === 0 ? '' : ', so one more cycle'}.`,
        ];
  return { setPointKPaAbs, extraCycles, reasons };
}
