/** Every group of outside checks, in the order of the report: adding one is an import and a line. */

import { ATMOSPHERE } from './air/atmosphere.ts';
import { BLOW_DOWN } from './air/blow-down.ts';
import { CONVERTER } from './air/converter.ts';
import { CONVERTER_STEP } from './air/converter-step.ts';
import { DOSE, RATE_OF_RISE } from './air/dose-and-leak.ts';
import { END_GAUGE } from './air/end-gauge.ts';
import { AIR_CONSTANTS } from './air/gas-constants.ts';
import { LEAK_UNITS } from './air/leak-units.ts';
import { LEAKS } from './air/leaks.ts';
import { PUMPING_DOWN } from './air/pump-down.ts';
import { ORIFICE_DISCHARGE, RESTRICTION_FLOW } from './air/restriction-flow.ts';
import { SEAL_RISE } from './air/seal-rise.ts';
import { AIR_BY_SOLVER } from './air/solver-air.ts';
import { VACUUM_BY_ALTITUDE } from './air/vacuum-by-altitude.ts';
import type { CheckGroup } from './check.ts';
import { ALARM_LOAD, ALARM_TRANSITIONS } from './controller/alarm-philosophy.ts';
import { CHIP_TIMING } from './controller/chip-timing.ts';
import { JOURNAL_HASH } from './controller/journal-hash.ts';
import { MESSAGE_CHECK } from './controller/message-check.ts';
import { LIGHT_IN_RESIN, OXYGEN_INHIBITION, RECIPROCITY, WORKING_CURVE } from './cure/cure.ts';
import { DOSE_QUADRATURE } from './cure/dose-quadrature.ts';
import { LAMP_LIGHT_AND_HEAT, SPECTRAL_MISMATCH } from './cure/lamp.ts';
import { LIGHT_BY_SOLVER } from './cure/solver-cure.ts';
import { TARGET_DOSE } from './cure/target-dose.ts';
import { UV_HAZARD } from './cure/uv-hazard.ts';
import { GAS_IN_A_GAP, SLIT_FILLING } from './filling/filling.ts';
import { FILL_TIMES, GAP_SHAPES, SOLVER_FILLING } from './filling/solver-filling.ts';
import { TRADE_WINDOWS } from './filling/trade-windows.ts';
import { VISCOSITY_FITS } from './filling/viscosity.ts';
import { WATER_IN_THE_SEAL_TEST } from './filling/water.ts';
import { WATER_VAPOUR } from './filling/water-vapour.ts';
import { CHANNEL_BUDGETS } from './measuring/budgets.ts';
import { CARE_TREND } from './measuring/care-trend.ts';
import { CHANCE } from './measuring/chance.ts';
import { COVERAGE, GUARD_BAND } from './measuring/coverage.ts';
import { DIVIDERS } from './measuring/dividers.ts';
import { LINE_FIT } from './measuring/line-fit.ts';
import { SENSOR_ERRORS } from './measuring/sensor-errors.ts';
import { PRESSURE_TRANSMITTER, THERMISTOR } from './measuring/signal.ts';
import { UNITS } from './measuring/units.ts';
import { DEEP_GLASS } from './pane/deep-glass.ts';
import { HEATING_RATE, LEG_LIMITS } from './pane/heat-limits.ts';
import { HEATING_RATE_FILTER } from './pane/heat-watch.ts';
import { LAYERS_IN_SERIES, PANE_RADIATION, PANE_U_VALUE } from './pane/pane-steady.ts';
import { SLAB_COOLING, THIN_PLATE } from './pane/slab-cooling.ts';
import { SOLVER_LAMINATE, SPOT_LOSS } from './pane/solver-laminate.ts';
import { LEG_TIP, THERMAL_STRESS } from './pane/thermal-stress.ts';

export const ALL_GROUPS: readonly CheckGroup[] = [
  UNITS,
  ATMOSPHERE,
  AIR_CONSTANTS,
  RESTRICTION_FLOW,
  ORIFICE_DISCHARGE,
  BLOW_DOWN,
  PUMPING_DOWN,
  LEAKS,
  AIR_BY_SOLVER,
  RATE_OF_RISE,
  LEAK_UNITS,
  SEAL_RISE,
  WATER_IN_THE_SEAL_TEST,
  VACUUM_BY_ALTITUDE,
  LINE_FIT,
  CARE_TREND,
  SLIT_FILLING,
  GAS_IN_A_GAP,
  GAP_SHAPES,
  FILL_TIMES,
  SOLVER_FILLING,
  VISCOSITY_FITS,
  WATER_VAPOUR,
  THERMISTOR,
  PRESSURE_TRANSMITTER,
  SENSOR_ERRORS,
  DIVIDERS,
  CONVERTER,
  END_GAUGE,
  COVERAGE,
  GUARD_BAND,
  CONVERTER_STEP,
  CHANNEL_BUDGETS,
  LAMP_LIGHT_AND_HEAT,
  SPECTRAL_MISMATCH,
  WORKING_CURVE,
  LIGHT_IN_RESIN,
  RECIPROCITY,
  OXYGEN_INHIBITION,
  LIGHT_BY_SOLVER,
  UV_HAZARD,
  DOSE,
  DOSE_QUADRATURE,
  CHIP_TIMING,
  MESSAGE_CHECK,
  JOURNAL_HASH,
  CHANCE,
  PANE_U_VALUE,
  LAYERS_IN_SERIES,
  PANE_RADIATION,
  DEEP_GLASS,
  SLAB_COOLING,
  THIN_PLATE,
  SPOT_LOSS,
  SOLVER_LAMINATE,
  THERMAL_STRESS,
  LEG_TIP,
  TARGET_DOSE,
  LEG_LIMITS,
  HEATING_RATE,
  HEATING_RATE_FILTER,
  ALARM_TRANSITIONS,
  ALARM_LOAD,
  TRADE_WINDOWS,
];
