/** Faults of pump, valves, hose and their contacts. */
import type { FaultKind } from '../../../sim/faults/fault-kinds.ts';
import type { Fault } from '../../../sim/faults/faults.ts';
import { EVACUATE, LIGHT, PRESSURISE } from '../board/lock-step.ts';
import { type Case, truth } from './fault-case.ts';

const pressure = truth('pressurePa');
const always = (kind: FaultKind): Fault => ({ kind, from: { atS: 0 } });
/** Stays below the over-pressure switch for three quarters of a minute. */
const PRESS_GENTLY = { ...PRESSURISE, pumpRatio: 0.1 };
const DRAW_SLOWLY = { ...EVACUATE, pumpRatio: 0.15 };

export const AIR_CASES = {
  'vent-slow': {
    outputs: { pumpRatio: 0.5, ventOpen: true },
    seen: pressure,
    atLeast: 10_000,
    recoverS: 20,
  },
  'hose-kinked': {
    fault: { amount: 0 },
    outputs: DRAW_SLOWLY,
    seen: pressure,
    atLeast: 10_000,
    recoverS: 20,
  },
  'hose-splits': {
    fault: { amount: 0.1 },
    outputs: EVACUATE,
    seen: pressure,
    atLeast: 2_000,
    recoverS: 20,
  },
  'selector-leaks': {
    fault: { amount: 0.01 },
    outputs: EVACUATE,
    seen: pressure,
    atLeast: 2_000,
    recoverS: 20,
  },
  // Below the relief valve's pressure the over-pressure switch would stop the pump.
  'relief-stuck-shut': {
    alongside: [always('over-pressure-shorted')],
    outputs: { ...PRESSURISE, pumpRatio: 1 },
    seen: pressure,
    atLeast: 10_000,
    recoverS: 5,
  },
  'relief-opens-early': {
    fault: { amount: 20_000 },
    outputs: PRESS_GENTLY,
    seen: pressure,
    atLeast: 10_000,
    recoverS: 30,
  },
  'injector-lifted': { outputs: EVACUATE, seen: pressure, atLeast: 50_000, recoverS: 20 },
  // 30 N hold the foot of 20 mm down to 95 kPa of gauge pressure.
  'clamp-loose': {
    alongside: [always('over-pressure-shorted')],
    outputs: PRESSURISE,
    seen: pressure,
    atLeast: 50_000,
    recoverS: 20,
  },
  'pump-stuck-at': {
    outputs: {},
    seen: (_, { truth: { acting } }) => acting.pumpRatio,
    atLeast: 0.3,
    recoverS: 1,
  },
  'pump-reversed': { outputs: DRAW_SLOWLY, seen: pressure, atLeast: 50_000, recoverS: 20 },
  'vent-stuck-open': { outputs: EVACUATE, seen: pressure, atLeast: 50_000, recoverS: 20 },
  'vent-drive-shorted': {
    outputs: {},
    seen: (_, { truth: { acting } }) => Number(acting.ventOpen),
    atLeast: 1,
    recoverS: 1,
  },
  'selector-stuck-vacuum': { outputs: PRESS_GENTLY, seen: pressure, atLeast: 50_000, recoverS: 30 },
  'selector-stuck-pressure': {
    outputs: DRAW_SLOWLY,
    seen: pressure,
    atLeast: 50_000,
    recoverS: 20,
  },
  'over-pressure-shorted': {
    alongside: [always('over-pressure-switch')],
    outputs: {},
    seen: ({ switches }) => Number(switches.overPressureTripped),
    atLeast: 1,
    recoverS: 1,
  },
  'shield-read-shorted': {
    shieldOpen: true,
    outputs: {},
    seen: ({ switches }) => Number(switches.shieldClosed),
    atLeast: 1,
    recoverS: 1,
  },
  'shield-cut-shorted': {
    shieldOpen: true,
    alongside: [always('shield-read-shorted')],
    outputs: LIGHT,
    seen: truth('irradianceWPerM2'),
    atLeast: 150,
    recoverS: 1,
  },
  'stop-read-shorted': {
    alongside: [always('emergency-stop')],
    outputs: {},
    seen: ({ switches }) => Number(switches.emergencyStopPressed),
    atLeast: 1,
    recoverS: 1,
  },
  // 212 W take a heat sink of 77 C past 90 C, where the sound cut-out keeps the lamp dark.
  'cut-out-shorted': {
    airK: 350.15,
    alongside: [{ ...always('heat-sink-hot'), amount: 200 }],
    outputs: LIGHT,
    seen: truth('irradianceWPerM2'),
    atLeast: 50,
    recoverS: 10,
  },
  'stop-cut-shorted': {
    alongside: [always('emergency-stop'), always('stop-read-shorted')],
    outputs: LIGHT,
    seen: truth('irradianceWPerM2'),
    atLeast: 150,
    recoverS: 1,
  },
} as const satisfies Readonly<Partial<Record<FaultKind, Case>>>;
