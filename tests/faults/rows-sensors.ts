/** The transmitter of pressure, the light sensor, both thermistors and the supply's divider. */
import { AT_START, LIGHT_PHASES, ofSensor, one, type Row } from './row.ts';

const pressure = ofSensor('pressure');
const light = ofSensor('irradiance');
const glass = ofSensor('glassTemperature');
const sink = ofSensor('heatSinkTemperature');
const supply = ofSensor('supplyVoltage');
const START = { begins: 'at-power-up' } as const;

export const PRESSURE_ROWS: readonly Row[] = [
  { id: 'pressure-open', title: 'pressure signal lost', faults: [pressure('sensor-open')] },
  { id: 'pressure-short', title: 'pressure signal shorted', faults: [pressure('sensor-short')] },
  { id: 'pressure-stuck', title: 'pressure reading stuck', faults: [pressure('sensor-stuck')] },
  {
    id: 'pressure-dither',
    title: 'pressure reading stuck, its last digit alive',
    faults: [pressure('sensor-dither')],
  },
  {
    id: 'pressure-offset-up',
    title: 'pressure reads 20 kPa too much',
    faults: [pressure('sensor-offset', 41)],
  },
  {
    id: 'pressure-offset-down',
    title: 'pressure reads 20 kPa too little',
    faults: [pressure('sensor-offset', -41)],
  },
  {
    id: 'pressure-offset-start-up',
    title: 'pressure reads 25 kPa too much from power-up',
    faults: [pressure('sensor-offset', 51, START)],
    phases: AT_START,
  },
  {
    id: 'pressure-offset-start-down',
    title: 'pressure reads 25 kPa too little from power-up',
    faults: [pressure('sensor-offset', -51, START)],
    phases: AT_START,
  },
  {
    id: 'pressure-drift-up',
    title: 'pressure drifts up by 10 kPa a minute',
    faults: [pressure('sensor-drift', 20)],
  },
  {
    id: 'pressure-drift-down',
    title: 'pressure drifts down by 10 kPa a minute',
    faults: [pressure('sensor-drift', -20)],
  },
  {
    id: 'pressure-span-up',
    title: 'pressure span 15 % too great',
    faults: [pressure('sensor-gain', 1.15)],
  },
  {
    id: 'pressure-span-down',
    title: 'pressure span 15 % too small',
    faults: [pressure('sensor-gain', 0.85)],
  },
  {
    id: 'pressure-span-start',
    title: 'pressure span 20 % too small from power-up',
    faults: [pressure('sensor-gain', 0.8, START)],
    phases: AT_START,
  },
  {
    id: 'pressure-slow',
    title: 'pressure follows within 5 s: port clogged',
    faults: [pressure('sensor-slow', 5)],
  },
  {
    id: 'pressure-very-slow',
    title: 'pressure follows within 60 s: resin in its line',
    faults: [pressure('sensor-slow', 60)],
  },
  {
    id: 'pressure-noise',
    title: 'pressure noise of 10 kPa for two seconds',
    faults: [pressure('sensor-noise', 20, { lastsS: 2 })],
  },
  {
    id: 'pressure-saturates',
    title: 'pressure reading ends at 120 kPa gauge',
    faults: [pressure('sensor-saturates', 550)],
  },
];

export const LIGHT_ROWS: readonly Row[] = [
  { id: 'light-open', title: 'light signal lost', faults: [light('sensor-open')] },
  { id: 'light-short', title: 'light signal shorted', faults: [light('sensor-short')] },
  { id: 'light-stuck', title: 'light reading stuck', faults: [light('sensor-stuck')] },
  {
    id: 'light-stuck-lamp-dead',
    title: 'light reading stuck and the lamp dead',
    faults: [light('sensor-stuck'), one('lamp-dead')],
    phases: LIGHT_PHASES,
  },
  {
    id: 'light-dither-lamp-dead',
    title: 'light reading stuck but for its last digit, and the lamp dead',
    faults: [light('sensor-dither'), one('lamp-dead')],
    phases: LIGHT_PHASES,
  },
  {
    id: 'light-gain-up',
    title: 'light reads twice what there is',
    faults: [light('sensor-gain', 2)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'light-gain-up-weak-lamp',
    title: 'light reads twice what there is, over a lamp at 35 %',
    faults: [light('sensor-gain', 2), one('lamp-aged', 0.35)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'light-gain-down',
    title: 'light reads three quarters: window dirty',
    faults: [light('sensor-gain', 0.75)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'light-zero',
    title: 'light reads 2.5 mW/cm2 in the dark',
    faults: [light('sensor-offset', 51)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'light-zero-weak-lamp',
    title: 'light reads 2.5 mW/cm2 in the dark, over a lamp at 60 %',
    faults: [light('sensor-offset', 51), one('lamp-aged', 0.6)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'light-jump',
    title: 'light jumps up by 5 mW/cm2',
    faults: [light('sensor-offset', 102)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'light-drift-up',
    title: 'light drifts up by 2 mW/cm2 a minute',
    faults: [light('sensor-drift', 41)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'light-saturates',
    title: 'light reading ends at 12 mW/cm2',
    faults: [light('sensor-saturates', 348)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'light-slow',
    title: 'light follows within 10 s',
    faults: [light('sensor-slow', 10)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'light-noise',
    title: 'light noise of 2 mW/cm2',
    faults: [light('sensor-noise', 41)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'stray-light',
    title: '2 mW/cm2 of stray light on the sensor, under the shield',
    faults: [one('stray-light', 20)],
    phases: LIGHT_PHASES,
  },
];

export const HEAT_ROWS: readonly Row[] = [
  { id: 'glass-open', title: 'glass thermistor open', faults: [glass('sensor-open')] },
  { id: 'glass-short', title: 'glass thermistor shorted', faults: [glass('sensor-short')] },
  { id: 'glass-stuck', title: 'glass thermistor stuck', faults: [glass('sensor-stuck')] },
  {
    id: 'glass-stuck-heated',
    title: 'glass thermistor stuck, and 20 W on the spot',
    faults: [glass('sensor-stuck'), one('glass-hot', 20)],
  },
  {
    id: 'glass-off',
    title: 'glass thermistor off the glass',
    faults: [one('glass-thermistor-off')],
  },
  {
    id: 'glass-off-hot-pane',
    title: 'glass thermistor off a pane that comes in at 52 °C',
    faults: [one('glass-thermistor-off', undefined, START), one('hot-pane', 325, START)],
    phases: AT_START,
  },
  {
    id: 'glass-drift',
    title: 'glass thermistor reads 5 K more each minute',
    faults: [glass('sensor-drift', -55)],
  },
  {
    id: 'glass-offset',
    title: 'glass thermistor reads 10 K too little',
    faults: [glass('sensor-offset', 110)],
  },
  {
    id: 'glass-offset-start',
    title: 'glass thermistor reads 10 K too little from power-up',
    faults: [glass('sensor-offset', 110, START)],
    phases: AT_START,
  },
  {
    id: 'thermistors-exchanged',
    title: 'glass and heat sink thermistors exchanged',
    faults: [one('thermistors-exchanged', undefined, START)],
    phases: AT_START,
  },
  { id: 'sink-open', title: 'heat sink thermistor open', faults: [sink('sensor-open')] },
  { id: 'sink-short', title: 'heat sink thermistor shorted', faults: [sink('sensor-short')] },
  { id: 'sink-stuck', title: 'heat sink thermistor stuck', faults: [sink('sensor-stuck')] },
  {
    id: 'sink-stuck-heated',
    title: 'heat sink thermistor stuck, and 60 W that no fan takes off',
    faults: [sink('sensor-stuck'), one('heat-sink-hot', 60)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'sink-off',
    title: 'heat sink thermistor off the sink',
    faults: [one('sink-thermistor-off')],
    phases: LIGHT_PHASES,
  },
  {
    id: 'supply-divider-open',
    title: 'supply divider open',
    faults: [supply('sensor-open')],
  },
  {
    id: 'supply-divider-short',
    title: 'supply divider shorted',
    faults: [supply('sensor-short')],
  },
  {
    id: 'supply-divider-drift',
    title: 'supply divider drifts by 1 V a minute',
    faults: [supply('sensor-drift', 51)],
  },
  {
    id: 'reference-drifts',
    title: 'the sensors’ 5 V falls to 4.5 V',
    faults: [one('reference-drifts', 4.5)],
  },
];
