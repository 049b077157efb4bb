/**
 * The circuit as data: every part of the unit and every net that joins them. Ends are written
 * `part.terminal`, or `pin.name` for a pin of the pin map. Drawings, parts list and tests read this
 * table; a drawing whose connections differ from it fails its test.
 *
 * Four contacts stop the unit without software. The emergency stop breaks the 12 V of everything
 * that moves or shines. The over-pressure switch sits in the common return of pump and vent valve:
 * when it opens, the return is lifted to 5 V, no gate can be above its source, the pump stops and
 * the vent falls open; the same node is read. The shield switch breaks the lamp's supply, and so does the thermal cut-out
 * on its heat sink, which nobody reads.
 */

import type { PinName } from '../pin-map.ts';
import type { PartTypeName } from './part-types.ts';

/** One part, or one contact of a part that has several: `S1a` and `S1b` are one button. */
export const PARTS = {
  PS1: 'supply',
  F1: 'fuseMain',
  F2: 'fusePump',
  F3: 'fuseValves',
  F4: 'fuseLamp',
  F5: 'fuseLogic',
  VD1: 'suppressor',
  C1: 'bulk',
  C2: 'regulatorIn',
  C3: 'regulatorOut',
  U1: 'regulator',
  N1: 'controller',
  X1: 'bridge',
  S1a: 'emergencyStop',
  S1b: 'emergencyStop',
  S2: 'overPressure',
  S3a: 'shield',
  S3b: 'shield',
  S4: 'thermalCutOut',

  M1: 'pump',
  VD2: 'schottky',
  Q1: 'driveMosfet',
  R1: 'gate',
  R2: 'pullDown',
  Y1: 'ventValve',
  VD3: 'flyback',
  Q2: 'driveMosfet',
  R3: 'gate',
  R4: 'pullDown',
  Y2: 'selectorValve',
  VD4: 'flyback',
  Q3: 'driveMosfet',
  R5: 'gate',
  R6: 'pullDown',
  R7: 'returnPullUp',
  R8: 'pinGuard',
  C4: 'filterSmall',

  Q4: 'highSideMosfet',
  R9: 'gatePullUp',
  R10: 'gateSink',
  Q5: 'signalMosfet',
  R11: 'gate',
  R12: 'pullDown',
  U2: 'lampDriver',
  R13: 'gate',
  R14: 'pullDown',
  E1: 'uvLed',

  R15: 'contactPullUp',
  R16: 'filterSeries',
  C5: 'filter',
  R17: 'contactPullUp',
  R18: 'filterSeries',
  C6: 'filter',
  U3: 'transmitter',
  R19: 'wireBreak',
  R20: 'filterSeries',
  C7: 'filter',
  U4: 'uvSensor',
  R21: 'wireBreak',
  R22: 'filterSeries',
  C8: 'filter',
  R23: 'thermistorSeries',
  RT1: 'thermistor',
  C9: 'filter',
  R24: 'thermistorSeries',
  RT2: 'thermistor',
  C10: 'filter',
  R25: 'supplyUpper',
  R26: 'supplyLower',
  C11: 'filter',
  R27: 'ladderPullUp',
  R28: 'ladderNo',
  R29: 'ladderMore',
  R37: 'ladderYes',
  R38: 'ladderRest',
  C12: 'filterSmall',
  SB1: 'pushButton',
  SB2: 'pushButton',
  SB3: 'pushButton',
  SB4: 'holdButton',
  H1: 'display',
  R30: 'busPullUp',
  R31: 'busPullUp',
  HL1: 'statusLamp',
  R32: 'redSeries',
  R33: 'greenSeries',
  R34: 'blueSeries',
  BZ1: 'buzzer',
  VD5: 'flyback',
  Q6: 'signalMosfet',
  R35: 'gate',
  R36: 'pullDown',
} as const satisfies Readonly<Record<string, PartTypeName>>;
export type PartId = keyof typeof PARTS;

export type End = `pin.${PinName}` | `${PartId}.${string}`;
export type Nets = Readonly<Record<string, readonly End[]>>;

const POWER_NETS: Nets = {
  '12V_IN': ['PS1.+', 'F1.a'],
  '12V': ['F1.b', 'VD1.K', 'C1.a', 'S1a.a', 'F5.a', 'R25.a'],
  '12V_ACT': ['S1a.b', 'F2.a', 'F3.a', 'F4.a'],
  '12V_PUMP': ['F2.b', 'M1.a', 'VD2.K'],
  '12V_VALVES': ['F3.b', 'Y1.a', 'VD3.K', 'Y2.a', 'VD4.K'],
  '12V_LAMP': ['F4.b', 'S3a.a'],
  '12V_LOGIC': ['F5.b', 'C2.a', 'U1.IN'],
  // biome-ignore format: one line a rail reads best
  '5V': ['U1.OUT', 'C3.a', 'N1.5V', 'R7.a', 'R15.a', 'R17.a', 'U3.5V', 'U4.5V', 'R23.a', 'R24.a', 'R27.a', 'R30.a', 'R31.a', 'H1.5V', 'BZ1.+', 'VD5.K'],
  // biome-ignore format: one line a rail reads best
  GND: ['PS1.-', 'VD1.A', 'C1.b', 'C2.b', 'C3.b', 'U1.GND', 'N1.GND', 'X1.GND', 'R2.b', 'R4.b', 'R6.b', 'Q3.S', 'S2.b', 'C4.b', 'R12.b', 'Q5.S', 'R14.b', 'U2.GND', 'S1b.b', 'C5.b', 'S3b.b', 'C6.b', 'U3.GND', 'R19.b', 'C7.b', 'U4.GND', 'R21.b', 'C8.b', 'RT1.b', 'C9.b', 'RT2.b', 'C10.b', 'R26.b', 'C11.b', 'SB1.b', 'SB2.b', 'SB3.b', 'SB4.b', 'R38.b', 'C12.b', 'H1.GND', 'HL1.K', 'R36.b', 'Q6.S'],
};

const DRIVE_NETS: Nets = {
  D9: ['pin.pumpDrive', 'R1.a'],
  PUMP_GATE: ['R1.b', 'R2.a', 'Q1.G'],
  PUMP_DRAIN: ['Q1.D', 'M1.b', 'VD2.A'],
  D6: ['pin.ventClose', 'R3.a'],
  VENT_GATE: ['R3.b', 'R4.a', 'Q2.G'],
  VENT_DRAIN: ['Q2.D', 'Y1.b', 'VD3.A'],
  D7: ['pin.selectorPressure', 'R5.a'],
  SELECTOR_GATE: ['R5.b', 'R6.a', 'Q3.G'],
  SELECTOR_DRAIN: ['Q3.D', 'Y2.b', 'VD4.A'],
  RETURN: ['Q1.S', 'Q2.S', 'S2.a', 'R7.b', 'R8.a'],
  D3: ['R8.b', 'C4.a', 'pin.overPressureSwitch'],
  D8: ['pin.lampEnable', 'R11.a'],
  ENABLE_GATE: ['R11.b', 'R12.a', 'Q5.G'],
  ENABLE_DRAIN: ['Q5.D', 'R10.b'],
  LAMP_GATE: ['R10.a', 'R9.b', 'Q4.G'],
  '12V_SHIELD': ['S3a.b', 'R9.a', 'Q4.S'],
  '12V_SWITCHED': ['Q4.D', 'S4.a'],
  '12V_DRIVER': ['S4.b', 'U2.IN'],
  D10: ['pin.lampDrive', 'R13.a'],
  LAMP_DIM: ['R13.b', 'R14.a', 'U2.DIM'],
  LED_PLUS: ['U2.LED+', 'E1.A'],
  LED_MINUS: ['U2.LED-', 'E1.K'],
};

const SIGNAL_NETS: Nets = {
  D0: ['pin.serialIn', 'X1.TXD'],
  D1: ['pin.serialOut', 'X1.RXD'],
  STOP_CONTACT: ['R15.b', 'S1b.a', 'R16.a'],
  D2: ['R16.b', 'C5.a', 'pin.emergencyStop'],
  SHIELD_CONTACT: ['R17.b', 'S3b.a', 'R18.a'],
  D4: ['R18.b', 'C6.a', 'pin.shieldSwitch'],
  PRESSURE_OUT: ['U3.OUT', 'R19.a', 'R20.a'],
  A0: ['R20.b', 'C7.a', 'pin.pressure'],
  IRRADIANCE_OUT: ['U4.OUT', 'R21.a', 'R22.a'],
  A1: ['R22.b', 'C8.a', 'pin.irradiance'],
  A2: ['R23.b', 'RT1.a', 'C9.a', 'pin.glassTemperature'],
  A6: ['R24.b', 'RT2.a', 'C10.a', 'pin.heatSinkTemperature'],
  A7: ['R25.b', 'R26.a', 'C11.a', 'pin.supplyVoltage'],
  A3: ['R27.b', 'C12.a', 'SB4.a', 'R28.a', 'R29.a', 'R37.a', 'R38.a', 'pin.buttons'],
  BUTTON_YES: ['R37.b', 'SB1.a'],
  BUTTON_NO: ['R28.b', 'SB2.a'],
  BUTTON_MORE: ['R29.b', 'SB3.a'],
  A4: ['R30.b', 'H1.SDA', 'pin.displayData'],
  A5: ['R31.b', 'H1.SCL', 'pin.displayClock'],
  D11: ['pin.statusRed', 'R32.a'],
  STATUS_RED: ['R32.b', 'HL1.R'],
  D12: ['pin.statusGreen', 'R33.a'],
  STATUS_GREEN: ['R33.b', 'HL1.G'],
  D13: ['pin.statusBlue', 'R34.a'],
  STATUS_BLUE: ['R34.b', 'HL1.B'],
  D5: ['pin.buzzer', 'R35.a'],
  BUZZER_GATE: ['R35.b', 'R36.a', 'Q6.G'],
  BUZZER_DRAIN: ['Q6.D', 'BZ1.-', 'VD5.A'],
};

export const NETS: Nets = { ...POWER_NETS, ...DRIVE_NETS, ...SIGNAL_NETS };
