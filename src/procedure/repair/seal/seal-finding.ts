/**
 * Names what the valve-off test saw: a tight seal, a leak, water in the break, outgassing, or
 * nothing conclusive. It judges ranges rather than best values, so that a name is given only where
 * the samples leave no alternative. The phase table decides what follows.
 */
import type { SealFinding, SealWhy } from '../../../core/events.ts';
import { waterSaturationPa } from '../../../core/water.ts';
import { leakRatePaM3PerS } from '../../leak.ts';
import type { Rise } from '../../rise.ts';

export interface SealTest {
  readonly leakLimitPaM3PerS: number;
  readonly volumeM3: number;
  /** Start and end of the watch, s since the chamber was closed. */
  readonly settledS: number;
  readonly watchedS: number;
  /** Reading when the chamber was closed. */
  readonly isolatedPa: number;
  /** Null while it is not valid. */
  readonly glassK: number | null;
}

export interface SealVerdict {
  readonly finding: SealFinding;
  readonly why: SealWhy;
  /** Null with too few readings. */
  readonly leakRatePaM3PerS: number | null;
  /**
   * Half of the 95 % range from the scatter of the samples; the volume's own uncertainty is not
   * included.
   */
  readonly leakRateUncertaintyPaM3PerS: number | null;
  /** Height of the plateau above the pressure at isolation; null for a straight rise. */
  readonly risePlateauPa: number | null;
}

/**
 * Share of water's saturation pressure that separates water from outgassing. Water rises by less
 * than all of it, because the vapour present at isolation does not rise any more: room air at half
 * saturation, drawn down to 60 %, holds three tenths. Outgassing stays well below (common practice,
 * no source); 0.6 lies between.
 */
const WATER_FROM = 0.6;
/** The break may be warmer than the glass where it is measured: 4 K at 23 C is a factor of 1.3. */
const WATER_TO = 1.3;
/**
 * A larger difference between the reading at isolation and the start of the fit is no vapour. The
 * limit is six steps of the converter, for their noise, the pump's last turn and the warming of the
 * gas.
 */
export const JUMP_PA = 3_000;
/** A plateau counts as seen once two of its time constants, 86 % of the way, lie in the watch. */
const TAUS_TO_SEE = 2;

export function sealVerdictOf(rise: Rise | null, test: SealTest): SealVerdict {
  const { volumeM3 } = test;
  const rate = (slopePaPerS: number): number => leakRatePaM3PerS(slopePaPerS, volumeM3);
  if (rise === null) {
    return {
      finding: 'unclear',
      why: 'too-few-readings',
      leakRatePaM3PerS: null,
      leakRateUncertaintyPaM3PerS: null,
      risePlateauPa: null,
    };
  }
  const [finding, why, slopePaPerS] = nameOf(rise, test);
  const { low, high } = rise.slopePaPerS;
  return {
    finding,
    why,
    leakRatePaM3PerS: rate(slopePaPerS),
    leakRateUncertaintyPaM3PerS: rate((high - low) / 2),
    risePlateauPa: rise.shape === 'bent' && finding !== 'leak' ? rise.heightPa.best : null,
  };
}

/** The only ambiguity that a longer pull may resolve: it removes adsorbed gas and leaves water. */
export const VAPOUR_UNCLEAR: SealWhy = 'water-or-outgassing';

/** The words of the record; a catalogue has its own words for the display. */
export const SEAL_WHY_WORDS: Readonly<Record<SealWhy, string>> = {
  'too-few-readings': 'Too few readings',
  'jumps-when-closed': 'Jumps when closed',
  'rises-in-a-line': 'Rises in a line',
  'close-to-the-limit': 'Close to the limit',
  'vacuum-stays': 'The vacuum stays',
  'rises-on-and-on': 'Rises on and on',
  'glass-unknown': 'Glass temp. unknown',
  'rises-past-water': 'Rises past water',
  'leak-or-vapour': 'Leak or vapour?',
  'still-rising': 'Still rising at end',
  'pressure-falls': 'Pressure falls',
  'levels-below-water': 'Levels below water',
  'levels-like-water': 'Levels like water',
  'water-or-outgassing': 'Water or outgassing?',
  'pressure-stays': 'The pressure stays',
  'falls-in-a-line': 'Falls in a line',
  'lifts-under-pressure': 'Pressure lifts it',
};

type Named = readonly [finding: SealFinding, why: SealWhy, slopePaPerS: number];

function nameOf(rise: Rise, test: SealTest): Named {
  const limit = test.leakLimitPaM3PerS / test.volumeM3;
  const { low, best, high } = rise.slopePaPerS;
  // A leak so large that it is over before the watch begins leaves no slope to see.
  if (rise.startPa - test.isolatedPa > JUMP_PA) {
    const jumped = (rise.firstPa - test.isolatedPa) / test.settledS;
    return ['leak', 'jumps-when-closed', Math.max(best, jumped)];
  }
  if (rise.shape === 'straight') {
    if (low > limit) return ['leak', 'rises-in-a-line', best];
    if (high > limit) return ['unclear', 'close-to-the-limit', best];
    return ['tight', 'vacuum-stays', best];
  }
  return nameOfBend(rise, test, limit);
}

function nameOfBend(
  { slopePaPerS, heightPa, tauS }: Extract<Rise, { shape: 'bent' }>,
  { glassK, settledS, watchedS }: SealTest,
  limit: number,
): Named {
  const { low, best, high } = slopePaPerS;
  const unclear = (why: SealWhy): Named => ['unclear', why, best];
  // Where the plateau is the air pressure itself, the leak rate is the inflow when the watch began.
  const firstSlope = best + (heightPa.best / tauS) * Math.exp(-settledS / tauS);
  if (low > limit) return ['leak', 'rises-on-and-on', Math.max(best, firstSlope)];
  if (glassK === null) return unclear('glass-unknown');
  const waterPa = waterSaturationPa(glassK);
  const pastWater = heightPa.low > WATER_TO * waterPa;
  if (pastWater && firstSlope > limit) return ['leak', 'rises-past-water', firstSlope];
  if (high > limit) return unclear('leak-or-vapour');
  if (pastWater || tauS * TAUS_TO_SEE > watchedS) return unclear('still-rising');
  if (heightPa.high < 0) return unclear('pressure-falls');
  if (heightPa.high < WATER_FROM * waterPa) return ['outgassing', 'levels-below-water', best];
  if (heightPa.low > WATER_FROM * waterPa) return ['moisture', 'levels-like-water', best];
  return unclear(VAPOUR_UNCLEAR);
}
