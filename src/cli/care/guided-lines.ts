/**
 * The result of a guided procedure in words for a terminal: trade units, uncertainty, consequences.
 */
import type { CareBody } from '../../care/care-entry.ts';
import { celsiusFromK, kPaFromPa, mWPerCm2FromWPerM2 } from '../../core/units.ts';
import type { GuidedResult } from '../../procedure/guided/guided-result.ts';

interface Scale {
  readonly title: string;
  readonly unit: string;
  readonly of: (value: number) => number;
  /** Unit of corrections and, unless it is a part of the reading, of the uncertainty. */
  readonly difference: { readonly unit: string; readonly of: (value: number) => number };
  readonly share: boolean;
  readonly decimals: number;
}

const SCALES: Readonly<Record<'pressure' | 'irradiance' | 'temperature', Scale>> = {
  pressure: {
    title: 'Pressure calibration',
    unit: 'kPa abs',
    of: kPaFromPa,
    difference: { unit: 'kPa', of: kPaFromPa },
    share: false,
    decimals: 2,
  },
  irradiance: {
    title: 'UV calibration',
    unit: 'mW/cm2',
    of: mWPerCm2FromWPerM2,
    difference: { unit: 'mW/cm2', of: mWPerCm2FromWPerM2 },
    share: true,
    decimals: 2,
  },
  temperature: {
    title: 'Temperature calibration',
    unit: 'C',
    of: celsiusFromK,
    difference: { unit: 'K', of: (k) => k },
    share: false,
    decimals: 2,
  },
};

export function guidedLines(result: GuidedResult, body: CareBody): readonly string[] {
  const refusals = result.refusals.map((words) => `  ${words}`);
  if (result.channel === 'health') {
    return [
      `Switches, seal and pump: ${verdict(result.passed)}`,
      ...healthLines(result),
      ...refusals,
    ];
  }
  const scale = SCALES[result.channel];
  const holds =
    result.passed && body.what === 'calibration'
      ? [`  in force from now on; repeat by ${body.validUntil}`]
      : ['  not put into force: the unit keeps its previous figures'];
  return [
    `${scale.title}: ${verdict(result.passed)}`,
    ...pointLines(result, scale),
    ...uncertaintyLine(result, scale),
    ...refusals,
    ...holds,
  ];
}

const moved = (seen: boolean | null): string =>
  seen === true ? 'seen to move' : 'NOT SEEN TO MOVE';

const verdict = (passed: boolean): string => (passed ? 'passed' : 'NOT PASSED');

type Calibrated = Exclude<GuidedResult, { channel: 'health' }>;

function pointLines(result: Calibrated, scale: Scale): readonly string[] {
  const number = (value: number): string => scale.of(value).toFixed(scale.decimals);
  const amount = (value: number): string =>
    `${value < 0 ? '-' : '+'}${Math.abs(scale.difference.of(value)).toFixed(scale.decimals)} ${scale.difference.unit}`;
  const points = result.points.map(
    ({ reference, reading }, i) =>
      `  reference ${number(reference)}, unit ${number(reading)} ${scale.unit}: add ${amount(result.corrections[i] ?? 0)}`,
  );
  const checks = result.checks.map(
    ({ reference }, i) =>
      `  check at ${number(reference)} ${scale.unit}: ${amount(result.residuals[i] ?? 0)} left after the correction`,
  );
  return [...points, ...checks];
}

function uncertaintyLine({ uncertainty }: Calibrated, scale: Scale): readonly string[] {
  if (uncertainty === null) return [];
  const { standard } = uncertainty;
  const words = scale.share
    ? `${(standard * 100).toFixed(2)} % of reading`
    : `${scale.difference.of(standard).toFixed(3)} ${scale.difference.unit}`;
  return [`  standard uncertainty ${words}`];
}

function healthLines(result: Extract<GuidedResult, { channel: 'health' }>): readonly string[] {
  const { sealLeakPaPerS, sealLeakStandardPaPerS, pumpDownS, ultimatePa, stoppedEarly } = result;
  const pull = pumpDownS === null ? 'not reached' : `${pumpDownS.toFixed(2)} s`;
  const deepest = kPaFromPa(ultimatePa).toFixed(1);
  const { emergencyStop, overPressureSwitch } = result.interlocks;
  return [
    `  stop ${moved(emergencyStop)}, over-pressure switch ${moved(overPressureSwitch)}`,
    `  leak ${sealLeakPaPerS.toFixed(1)} Pa/s, standard uncertainty ${sealLeakStandardPaPerS.toFixed(1)} Pa/s`,
    `  time to the set vacuum ${pull}`,
    `  deepest ${stoppedEarly ? 'at most ' : ''}${deepest} kPa abs at an air of ${kPaFromPa(result.atmospherePa).toFixed(1)}`,
  ];
}
