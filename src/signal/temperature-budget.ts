/**
 * Uncertainty of a temperature from a thermistor in a divider. The divider's ratio gives the ratio
 * of the two resistors, so a relative error of the series resistor is the same relative error of
 * the thermistor.
 */
import { FULL_SCALE_COUNTS } from '../core/frame.ts';
import { type Budget, type BudgetInput, budgetOf, within } from './budget.ts';
import { type ChannelSettings, steinhartHartK } from './channels.ts';
import { converterRows } from './converter-parts.ts';
import type { UncertaintySettings } from './uncertainty-settings.ts';

type Thermistor = ChannelSettings['thermistor'];

/** ln of the resistance, in ohm, that reads as this temperature: Newton on Steinhart and Hart. */
export function logOhmAt(temperatureK: number, { a, b, c, seriesOhm }: Thermistor): number {
  let log = Math.log(seriesOhm);
  for (let i = 0; i < 30; i++) {
    log -= (a + b * log + c * log ** 3 - 1 / temperatureK) / (b + 3 * c * log ** 2);
  }
  return log;
}

/** Change of the temperature in K for a relative change of the resistance; negative for an NTC. */
function perLogOhmK(log: number, thermistor: Thermistor): number {
  const { b, c } = thermistor;
  return -(steinhartHartK(Math.exp(log), thermistor) ** 2) * (b + 3 * c * log ** 2);
}

/** Temperature rise of the thermistor from its measuring current, K. */
function selfHeatingK(ohm: number, seriesOhm: number, uncertainty: UncertaintySettings): number {
  const { excitationV, dissipationWPerK } = uncertainty.thermistor;
  const currentA = excitationV / (ohm + seriesOhm);
  return (currentA * currentA * ohm) / dissipationWPerK;
}

export function temperatureBudget(
  temperatureK: number,
  { glassThermistor: thermistor }: Pick<ChannelSettings, 'glassThermistor'>,
  uncertainty: UncertaintySettings,
): Budget {
  const limits = uncertainty.thermistor;
  const log = logOhmAt(temperatureK, thermistor);
  const ohm = Math.exp(log);
  const { seriesOhm } = thermistor;
  const ratio = ohm / (ohm + seriesOhm);
  const perLogK = perLogOhmK(log, thermistor);
  const perCountK = perLogK / (ratio * (1 - ratio) * FULL_SCALE_COUNTS);
  const inK = (name: string, spread: number): BudgetInput =>
    within({ name, value: 0, unit: 'K', spread, sensitivity: 1 });
  const series = { value: 1, unit: '1', spread: limits.seriesRatio };
  const lead = { value: 0, unit: 'ohm', spread: limits.leadOhm };
  return budgetOf([
    inK('interchangeability', limits.interchangeabilityK),
    inK('equation', limits.equationK),
    within({ name: 'series resistor', ...series, sensitivity: perLogK }),
    within({ name: 'leads', ...lead, sensitivity: perLogK / ohm }),
    // The error is always a warming. Since the reading is not corrected, all of it counts as
    // half-width.
    inK('self-heating', selfHeatingK(ohm, seriesOhm, uncertainty)),
    inK('contact with the glass', limits.contactK),
    ...converterRows(FULL_SCALE_COUNTS * ratio, perCountK, uncertainty),
  ]);
}
