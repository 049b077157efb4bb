/**
 * Alarms of pressure, vacuum, seal, pump and vent. Default limits are demo values; a profile may
 * tighten some of them and never relaxes one.
 */

import { valueOrNull } from '../core/frame.ts';
import {
  CLOSED_PHASES,
  HOLDING_SET_POINT,
  LET_DOWN_PHASES,
  type PhaseId,
  PUMPED_PHASES,
  SHUT_OFF_PHASES,
  VACUUM_APPROACHED,
} from '../core/phases.ts';
import type { AlarmRow } from './alarm-row.ts';
import {
  absoluteText,
  always,
  atOnce,
  fixed,
  gaugePa,
  inPhase,
  PRESSURE_IN_TIME,
  running,
  setPointInTime,
  setting,
  shortOfSetPointPa,
} from './alarm-terms.ts';

/**
 * The pump's work tells a leak less closely than the rise in a closed chamber does, so a seal that
 * has just passed its test must not alarm in the dwell; demo.
 */
const PUMP_KNOWN_WITHIN = 1.5;

/** The leak rate of a test stands while it runs and while hands mend the leak. */
const LEAK_SHOWN: ReadonlySet<PhaseId> = new Set([...SHUT_OFF_PHASES, 'reseat', 'foot-lifts']);

export const PRESSURE_ROWS: readonly AlarmRow[] = [
  {
    id: 'over-pressure',
    title: 'Over-pressure',
    priority: 'high',
    action: 'abort',
    latching: true,
    quantity: 'gaugePressure',
    trips: 'above',
    limit: setting(180, 50, 190),
    deadband: setting(5, 1, 50),
    delayS: atOnce,
    armed: always,
    seen: gaugePa,
    limitSI: ({ profile }, settingSI) => Math.min(settingSI, profile.highestGaugePa),
    remedy: 'Vent is open. Look for new legs. Have the pressure sensor and the pump checked.',
  },
  {
    id: 'vacuum-too-deep',
    title: 'Vacuum too deep',
    priority: 'medium',
    action: 'hold',
    latching: false,
    quantity: 'absolutePressure',
    trips: 'below',
    limit: setting(5, 1, 60),
    deadband: setting(3, 1, 20),
    delayS: setting(0.2, 0, 5),
    armed: always,
    seen: ({ reading }) => valueOrNull(reading.pressurePa),
    limitSI: ({ profile }, settingSI) => Math.max(settingSI, profile.lowestPa),
    remedy: 'Vented. Go on once; if it comes again, have the pump and the sensor checked.',
  },
  {
    ...PRESSURE_IN_TIME,
    id: 'vacuum-under-reach',
    title: 'Vacuum not reached',
    priority: 'medium',
    action: 'hold',
    latching: false,
    limit: setting(300, 2, 300),
    armed: (c) => running(c) && VACUUM_APPROACHED.has(c.phase),
    expected: setPointInTime,
    remedy: 'Wipe ring and glass, reseat the injector, check the hose. Then go on.',
  },
  {
    ...PRESSURE_IN_TIME,
    id: 'pressure-under-reach',
    title: 'No full pressure',
    priority: 'medium',
    action: 'hold',
    latching: false,
    limit: setting(300, 2, 300),
    armed: inPhase('pressurise'),
    expected: setPointInTime,
    remedy: 'Look for a wet rim under the ring. Reseat, check the hose. Then go on.',
  },
  {
    ...PRESSURE_IN_TIME,
    id: 'not-vented',
    title: 'Zero has drifted',
    priority: 'medium',
    action: 'hold',
    latching: false,
    limit: setting(330, 5, 330),
    armed: (c) => running(c) && LET_DOWN_PHASES.has(c.phase),
    expected: ({ atmospherePa }) => ({
      say: 'own-air',
      with: { pressure: absoluteText(atmospherePa) },
    }),
    remedy: 'The vent is open, yet the reading is not back at its zero. Have the sensor checked.',
  },
  {
    id: 'set-point-lost',
    title: 'Pressure lost',
    priority: 'medium',
    action: 'hold',
    latching: false,
    quantity: 'pressureDifference',
    trips: 'above',
    limit: setting(5, 2, 15),
    deadband: fixed(0),
    delayS: setting(0.1, 0.1, 5),
    armed: (c) => running(c) && HOLDING_SET_POINT.has(c.phase),
    seen: shortOfSetPointPa,
    remedy: 'Check that the hose is on and the ring sits flat. Then go on: the step starts anew.',
  },
  {
    id: 'set-point-passed',
    title: 'Set-point passed',
    priority: 'high',
    action: 'hold',
    latching: false,
    quantity: 'pressureDifference',
    trips: 'above',
    limit: setting(8, 2, 15),
    deadband: fixed(0),
    delayS: setting(0.3, 0.1, 5),
    armed: (c) => running(c) && CLOSED_PHASES.has(c.phase),
    seen: (c) => {
      const shortPa = shortOfSetPointPa(c);
      return shortPa === null ? null : -shortPa;
    },
    remedy: 'Vented. Listen whether the pump still runs: if it does, pull its plug.',
  },
  {
    id: 'leak',
    title: 'Seal leaks',
    priority: 'low',
    action: 'warn',
    latching: false,
    quantity: 'leakRate',
    trips: 'above',
    limit: setting(0.05, 0.0005, 0.05),
    deadband: fixed(0),
    delayS: atOnce,
    armed: (c) => running(c) && LEAK_SHOWN.has(c.phase),
    seen: ({ leakRatePaM3PerS }) => leakRatePaM3PerS,
    limitSI: ({ profile }, settingSI) => Math.min(settingSI, profile.leakLimitPaM3PerS),
    remedy: 'Wipe ring and glass dry, reseat with the least force that holds, test again.',
  },
  {
    id: 'leak-in-dwell',
    title: 'Leak in the dwell',
    priority: 'medium',
    action: 'hold',
    latching: false,
    quantity: 'leakRate',
    trips: 'above',
    limit: setting(0.01, 0.001, 0.05),
    deadband: fixed(0),
    delayS: atOnce,
    armed: (c) => running(c) && HOLDING_SET_POINT.has(c.phase),
    seen: ({ dwellLeakPaM3PerS }) => dwellLeakPaM3PerS,
    limitSI: ({ profile }, settingSI) =>
      Math.min(settingSI, PUMP_KNOWN_WITHIN * profile.leakLimitPaM3PerS),
    remedy:
      'The pump makes up for a leak. Wipe ring and glass dry, reseat, check the hose. Then go on.',
  },
  {
    id: 'pump-no-effect',
    title: 'Pump has no effect',
    priority: 'medium',
    action: 'hold',
    latching: false,
    quantity: 'pressureDifference',
    trips: 'above',
    limit: setting(6, 3, 20),
    deadband: fixed(0),
    delayS: setting(0.2, 0.1, 2),
    armed: (c) => running(c) && PUMPED_PHASES.has(c.phase),
    seen: ({ pumpAheadPa }) => pumpAheadPa,
    expected: { say: 'follows-pump' },
    seenText: ({ pumpAheadPa }) => ({
      say: 'behind-pump',
      with: { pressure: (pumpAheadPa / 1000).toFixed(1) },
    }),
    remedy: 'Check hose and ring, listen for the pump. If it comes again, have the sensor checked.',
  },
  {
    id: 'vent-no-effect',
    title: 'Vent does not open',
    priority: 'high',
    action: 'abort',
    latching: true,
    quantity: 'pressureDifference',
    trips: 'above',
    limit: setting(8, 3, 20),
    deadband: setting(2, 1, 5),
    delayS: setting(0.2, 0, 2),
    armed: ({ ventOpenForS }) => ventOpenForS >= 3,
    seen: (c) => {
      const gauge = gaugePa(c);
      return gauge === null ? null : Math.abs(gauge);
    },
    remedy: 'There may be pressure on the glass. Ease the hose off slowly by hand, face away.',
  },
];
