/**
 * Whether switches, seal and pump are in order, from a test on a closed test piece. A leak fails only where
 * it exceeds its limit by more than its uncertainty, and passes only where it is shown to be below
 * the limit; in between, the test is inconclusive. Limits come from care.json.
 */
import type { CareSettings } from './care-settings.ts';

export interface HealthMeasured {
  readonly sealLeakPaPerS: number;
  readonly sealLeakStandardPaPerS: number;
  /** From air to the pressure of the test; null where it was not reached. */
  readonly pumpDownS: number | null;
  readonly ultimatePa: number;
  readonly atmospherePa: number;
  /** The contact was seen to open and to close; null where it was not tried. */
  readonly interlocks: {
    readonly emergencyStop: boolean | null;
    readonly overPressureSwitch: boolean | null;
  };
}

export interface HealthJudged {
  readonly passed: boolean;
  /** Why it did not pass and what to check, one sentence each. */
  readonly refusals: readonly string[];
}

/**
 * `coverageFactor`: number of standard uncertainties that must lie between a leak and its limit.
 */
export function judgeHealth(
  measured: HealthMeasured,
  limits: CareSettings['health'],
  coverageFactor: number,
): HealthJudged {
  const { sealLeakPaPerS: leak, sealLeakStandardPaPerS, pumpDownS } = measured;
  const margin = coverageFactor * sealLeakStandardPaPerS;
  const limit = limits.greatestSealLeakPaPerS;
  const ultimateRatio = measured.ultimatePa / measured.atmospherePa;
  const { emergencyStop, overPressureSwitch } = measured.interlocks;
  const refusals = [
    emergencyStop === true
      ? null
      : 'The contact of the emergency stop was not seen to open and close. Do not use the unit before its wires are checked.',
    overPressureSwitch === true
      ? null
      : 'The over-pressure switch was not seen to open between 190 and 210 kPa and to close. Do not use the unit before it is checked.',
    leak - margin > limit
      ? `The test piece leaks ${leak.toFixed(1)} Pa/s; at most ${limit} is allowed. Check O-ring, hose and fittings.`
      : leak + margin > limit || !Number.isFinite(leak + margin)
        ? `The leak of ${leak.toFixed(1)} ± ${margin.toFixed(1)} Pa/s cannot be distinguished from the limit of ${limit}. Test again with a longer wait.`
        : null,
    pumpDownS === null
      ? 'The pump did not reach the test pressure. Check the pump, its valves and the hose.'
      : pumpDownS > limits.longestPumpDownS
        ? `The pump took ${pumpDownS.toFixed(1)} s; at most ${limits.longestPumpDownS} s are allowed. Check the pump and its filter.`
        : null,
    ultimateRatio <= limits.highestUltimateRatio
      ? null
      : `The pump leaves ${percent(ultimateRatio)} of the atmosphere; at most ${percent(limits.highestUltimateRatio)} is allowed. Check the pump's valves.`,
  ].filter((words) => words !== null);
  return { passed: refusals.length === 0, refusals };
}

const percent = (ratio: number): string => `${(ratio * 100).toFixed(1)} %`;
