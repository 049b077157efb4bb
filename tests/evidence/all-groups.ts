/** Every group of outside checks, in the order of the report: adding one is an import and a line. */
import { ATMOSPHERE } from './atmosphere.ts';
import type { CheckGroup } from './check.ts';
import { DOSE, RATE_OF_RISE } from './dose-and-leak.ts';
import { SLIT_FILLING } from './filling.ts';
import { CHAMBER_IN_TIME, RESTRICTION_FLOW } from './pneumatics.ts';
import { PRESSURE_TRANSMITTER, THERMISTOR } from './signal.ts';
import { UNITS } from './units.ts';

export const ALL_GROUPS: readonly CheckGroup[] = [
  UNITS,
  ATMOSPHERE,
  RESTRICTION_FLOW,
  CHAMBER_IN_TIME,
  RATE_OF_RISE,
  SLIT_FILLING,
  THERMISTOR,
  PRESSURE_TRANSMITTER,
  DOSE,
];
