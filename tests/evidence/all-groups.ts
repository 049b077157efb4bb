/** Every group of outside checks, in the order of the report: adding one is an import and a line. */
import { ALARM_LOAD, ALARM_TRANSITIONS } from './alarm-philosophy.ts';
import { ATMOSPHERE } from './atmosphere.ts';
import { BLOW_DOWN } from './blow-down.ts';
import { CHANNEL_BUDGETS } from './budgets.ts';
import { CARE_TREND } from './care-trend.ts';
import { CHANCE } from './chance.ts';
import type { CheckGroup } from './check.ts';
import { CHIP_TIMING } from './chip-timing.ts';
import { CONVERTER } from './converter.ts';
import { CONVERTER_STEP } from './converter-step.ts';
import { COVERAGE, GUARD_BAND } from './coverage.ts';
import { LIGHT_IN_RESIN, OXYGEN_INHIBITION, RECIPROCITY, WORKING_CURVE } from './cure.ts';
import { DEEP_GLASS } from './deep-glass.ts';
import { DIVIDERS } from './dividers.ts';
import { DOSE, RATE_OF_RISE } from './dose-and-leak.ts';
import { DOSE_QUADRATURE } from './dose-quadrature.ts';
import { END_GAUGE } from './end-gauge.ts';
import { GAS_IN_A_GAP, SLIT_FILLING } from './filling.ts';
import { AIR_CONSTANTS } from './gas-constants.ts';
import { HEATING_RATE, LEG_LIMITS } from './heat-limits.ts';
import { HEATING_RATE_FILTER } from './heat-watch.ts';
import { JOURNAL_HASH } from './journal-hash.ts';
import { LAMP_LIGHT_AND_HEAT, SPECTRAL_MISMATCH } from './lamp.ts';
import { LEAK_UNITS } from './leak-units.ts';
import { LEAKS } from './leaks.ts';
import { LINE_FIT } from './line-fit.ts';
import { MESSAGE_CHECK } from './message-check.ts';
import { LAYERS_IN_SERIES, PANE_RADIATION, PANE_U_VALUE } from './pane-steady.ts';
import { PUMPING_DOWN } from './pump-down.ts';
import { ORIFICE_DISCHARGE, RESTRICTION_FLOW } from './restriction-flow.ts';
import { SEAL_RISE } from './seal-rise.ts';
import { SENSOR_ERRORS } from './sensor-errors.ts';
import { PRESSURE_TRANSMITTER, THERMISTOR } from './signal.ts';
import { SLAB_COOLING, THIN_PLATE } from './slab-cooling.ts';
import { AIR_BY_SOLVER } from './solver-air.ts';
import { LIGHT_BY_SOLVER } from './solver-cure.ts';
import { FILL_TIMES, GAP_SHAPES, SOLVER_FILLING } from './solver-filling.ts';
import { SOLVER_LAMINATE, SPOT_LOSS } from './solver-laminate.ts';
import { TARGET_DOSE } from './target-dose.ts';
import { LEG_TIP, THERMAL_STRESS } from './thermal-stress.ts';
import { TRADE_WINDOWS } from './trade-windows.ts';
import { UNITS } from './units.ts';
import { UV_HAZARD } from './uv-hazard.ts';
import { VACUUM_BY_ALTITUDE } from './vacuum-by-altitude.ts';
import { VISCOSITY_FITS } from './viscosity.ts';
import { WATER_IN_THE_SEAL_TEST } from './water.ts';
import { WATER_VAPOUR } from './water-vapour.ts';

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
