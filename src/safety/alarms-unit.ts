/**
 * Alarms of the unit itself: sensors, supply, self-test, and a person who does not answer. Default
 * limits are demo values; a profile may tighten some of them and never relaxes one.
 */

import { CHANNEL_ROWS, CHANNELS, type Channel, valueOrNull } from '../core/frame.ts';
import { CURE_PHASES, HEAT_PHASES } from '../core/phases.ts';
import type { AlarmContext, AlarmRow } from './alarm-row.ts';
import {
  always,
  atOnce,
  faultText,
  faulty,
  fixed,
  inPhase,
  linkUp,
  running,
  setting,
  TRUTH,
} from './alarm-terms.ts';

const pastSelfTest = ({ phase }: AlarmContext): boolean => phase !== 'self-test';
const inCure = ({ phase }: AlarmContext): boolean => CURE_PHASES.has(phase);
const onGlass = ({ phase }: AlarmContext): boolean => HEAT_PHASES.has(phase);

/** The loss of each sensor, where it is needed. */
const LOST_SENSORS: Readonly<Record<Channel, Pick<AlarmRow, 'id' | 'title' | 'armed'>>> = {
  pressure: { id: 'pressure-sensor', title: 'Pressure sensor', armed: pastSelfTest },
  irradiance: { id: 'irradiance-sensor', title: 'Light sensor', armed: inCure },
  glassTemperature: { id: 'glass-sensor', title: 'Glass temp. sensor', armed: onGlass },
  heatSinkTemperature: { id: 'heat-sink-sensor', title: 'Lamp temp. sensor', armed: inCure },
  supplyVoltage: { id: 'supply-sensor', title: 'Supply sensor', armed: pastSelfTest },
};

function sensorRow(channel: Channel): AlarmRow {
  const { id, title, armed } = LOST_SENSORS[channel];
  const { reading: key } = CHANNEL_ROWS[channel];
  return {
    ...TRUTH,
    id,
    title,
    priority: 'medium',
    action: 'hold',
    latching: false,
    delayS: setting(0.3, 0, 2),
    armed: (c) => linkUp(c) && armed(c),
    seen: ({ reading }) => faulty(reading[key]),
    expected: { say: 'believable-reading' },
    seenText: ({ reading }) => faultText(reading[key]),
    remedy: 'Check the plug and cable of this sensor. If it stays, have the sensor replaced.',
  };
}

export const UNIT_ROWS: readonly AlarmRow[] = [
  ...CHANNELS.map(sensorRow),
  {
    id: 'supply-low',
    title: 'Supply too low',
    priority: 'medium',
    action: 'hold',
    latching: false,
    quantity: 'voltage',
    trips: 'below',
    limit: setting(10.5, 9, 12),
    deadband: setting(0.5, 0.1, 2),
    delayS: setting(0.5, 0, 5),
    armed: always,
    seen: ({ reading }) => valueOrNull(reading.supplyV),
    remedy: 'Charge or change the battery, check the supply plug. Then go on.',
  },
  {
    id: 'self-test',
    title: 'Self-test',
    priority: 'medium',
    action: 'hold',
    latching: false,
    quantity: 'time',
    trips: 'above',
    limit: setting(10, 5, 60),
    deadband: fixed(0),
    delayS: atOnce,
    armed: (c) => inPhase('self-test')(c) && c.proving === null,
    seen: ({ phaseElapsedS }) => phaseElapsedS,
    expected: { say: 'all-checks-pass' },
    seenText: ({ selfTestFindings }) =>
      selfTestFindings.length === 0
        ? { say: 'not-finished' }
        : { say: 'found', with: { findings: selfTestFindings } },
    remedy: 'Take the hose off so that the unit reads the air. Check plugs. Then go on.',
  },
  {
    id: 'no-answer',
    title: 'No answer',
    priority: 'low',
    action: 'hold',
    latching: false,
    quantity: 'time',
    trips: 'above',
    // Common practice, no source: longer than any hand work of a repair.
    limit: setting(1800, 10, 3600),
    deadband: fixed(0),
    delayS: atOnce,
    armed: (c) => running(c) && c.profile.answerWithinS !== null,
    seen: ({ phaseElapsedS }) => phaseElapsedS,
    limitSI: ({ profile }, settingSI) => Math.min(settingSI, profile.answerWithinS ?? settingSI),
    remedy: 'The unit waited for you and has vented. Go on when you are ready.',
  },
];
