/** Uncertainty of an absolute pressure reading, from the transmitter's data sheet and the converter. */
import { FULL_SCALE_COUNTS } from '../core/frame.ts';
import { type Budget, type BudgetInput, budgetOf, within } from './budget.ts';
import { type ChannelSettings, LIVE_SPAN_RATIO, LIVE_ZERO_RATIO } from './channels.ts';
import { converterRows } from './converter-parts.ts';
import type { UncertaintySettings } from './uncertainty-settings.ts';

export function pressureBudget(
  pressurePa: number,
  { pressure: { zeroPa, fullPa } }: Pick<ChannelSettings, 'pressure'>,
  uncertainty: UncertaintySettings,
): Budget {
  const { pressure } = uncertainty;
  const spanPa = fullPa - zeroPa;
  const ofSpan = (name: string, spread: number): BudgetInput =>
    within({ name, value: 0, unit: '1', spread, sensitivity: spanPa });
  const slope = { value: 1, unit: '1', spread: pressure.slopeRatio };
  const perCount = spanPa / (LIVE_SPAN_RATIO * FULL_SCALE_COUNTS);
  const counts = FULL_SCALE_COUNTS * LIVE_ZERO_RATIO + (pressurePa - zeroPa) / perCount;
  return budgetOf([
    ofSpan('offset', pressure.offsetRatio),
    within({ name: 'slope', ...slope, sensitivity: pressurePa - zeroPa }),
    ofSpan('linearity and hysteresis', pressure.linearityRatio),
    ofSpan('temperature of the sensor', pressure.temperatureRatio),
    ofSpan('drift since calibration', pressure.driftRatio),
    ...converterRows(counts, perCount, uncertainty),
  ]);
}
