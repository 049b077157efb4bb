/**
 * Safety switches, sensors, buttons, display and signals, with their filters.
 */

import { BUTTON_LADDER } from '../pin-map.ts';
import { LAMP_HEAD } from './lamp-head.ts';
import { capacitor, contact, module, type PartType, resistor, type } from './part-type.ts';

export const SWITCH_TYPES = {
  emergencyStop: contact(
    'stop, NC',
    'emergency-stop button: latching mushroom, two normally closed contacts with positive opening',
    '12 V DC, 5 A inductive or more',
    'First contact breaks all 12 V behind it: 2.4 A, 3.4 A with the pump stalled.',
  ),
  overPressure: contact(
    'pressure, NC',
    'pressure switch, opens on rising pressure, normally closed',
    'opens at 200 kPa gauge, closes again at 180; 12 V DC, 3 A inductive or more; proof pressure 600 kPa; withstands vacuum',
    'Above the highest working pressure (180 kPa gauge), under the relief valve. Carries pump and vent coil: 0.9 A, 1.9 A stalled.',
  ),
  shield: contact(
    'shield, NC',
    'shield switch: two contacts, closed while the shield is closed, positive opening',
    '12 V DC, 3 A or more',
    'First contact carries the lamp supply, 1.2 A. Fit so that lifting the shield forces it open.',
  ),
  thermalCutOut: contact(
    '85 °C, NC',
    'thermal cut-out: bimetal disc switch with a metal face, normally closed, opens by itself when hot',
    'opens at 85 °C ± 5 K, closes again some 25 K lower; 12 V DC, 5 A or more',
    'Screwed or glued to the heat sink of the lamp, 1.2 A. Above the 75 °C at which the board trips by the default limits, so that it acts only when both sensor and software failed; at 90 °C and some 2 K/W a diode of 12 W is near 115 °C, under the 125 °C of usual types (from memory).',
  ),
  contactPullUp: resistor(2200, 'computed', '2.3 mA wets the contact.'),
  filterSeries: resistor(1000, 'computed', 'With 100 nF: 0.1 ms; keeps a spike out of the pin.'),
  filter: capacitor(
    '100 nF',
    'ceramic capacitor',
    '50 V',
    'Input filter; supplies the converter’s sampling charge.',
  ),
  filterSmall: capacitor(
    '10 nF',
    'ceramic capacitor',
    '50 V',
    'Input filter behind 10 kΩ: 0.1 ms.',
  ),
} as const satisfies Readonly<Record<string, PartType>>;

export const SIGNAL_TYPES = {
  wireBreak: resistor(
    100_000,
    'computed',
    'A broken sensor wire reads 0 V, which is below the live zero. On the sensor side of the filter, so that it does not reduce the reading.',
  ),
  transmitter: module(
    '0-400 kPa abs',
    'absolute pressure transmitter, ratiometric, three wires',
    '0 to 400 kPa absolute, 0.5 to 4.5 V at 5 V, proof pressure 600 kPa',
    'pin map',
    'Range covers vacuum and the relief valve; the live zero reveals a broken wire.',
  ),
  uvSensor: module(
    '0-40 mW/cm²',
    'UV-A photodiode with amplifier, ratiometric, three wires',
    `0 to 40 mW/cm² at ${LAMP_HEAD.peakNm} nm, 0.5 to 4.5 V at 5 V`,
    'pin map',
    'Twice the lamp’s output; the live zero reveals a broken wire.',
  ),
  thermistor: type(
    'thermistor',
    '10 kΩ NTC',
    'thermistor, insulated, on a cable',
    '10 kΩ at 25 °C, 1 %',
    'pin map',
    'Curve in the unit settings.',
  ),
  thermistorSeries: resistor(10_000, 'pin map', 'Upper half of a thermistor divider.'),
  supplyUpper: resistor(30_000, 'pin map', 'Upper half of the supply divider: 12 V reads 3 V.'),
  supplyLower: resistor(10_000, 'pin map', 'Lower half of the supply divider.'),
  ladderPullUp: resistor(BUTTON_LADDER.pullUpOhm, 'pin map', 'Top of the button ladder.'),
  ladderNo: resistor(BUTTON_LADDER.ohm.no, 'pin map', 'Step of the NO button.'),
  ladderMore: resistor(BUTTON_LADDER.ohm.more, 'pin map', 'Step of the MORE button.'),
  ladderYes: resistor(BUTTON_LADDER.ohm.yes, 'pin map', 'Step of the YES button.'),
  ladderRest: resistor(
    BUTTON_LADDER.restOhm,
    'pin map',
    'Beside the buttons, at the far end of their cable: without it the wire reads as cut off.',
  ),
  pushButton: {
    ...type(
      'button',
      '',
      'push button, momentary',
      '12 V DC, 50 mA; works with gloves',
      'demo',
      'Large enough for a gloved finger.',
    ),
    normally: 'open',
  },
  holdButton: {
    ...type(
      'button',
      '',
      'push button, momentary, large, yellow: HOLD',
      '12 V DC, 50 mA; works with gloves; 30 mm or more across',
      'demo',
      'Found without looking, apart from the other three. Yellow for what is abnormal, as IEC 60204-1 has it (from memory).',
    ),
    normally: 'open',
  },
  display: module(
    '20 × 4',
    'character display 20 × 4, HD44780-compatible, with PCF8574 port expander',
    '5 V, 0.15 A with backlight, address 0x27',
    'pin map',
    "Read at arm's length.",
  ),
  busPullUp: resistor(
    4700,
    'rule of thumb',
    'I2C at 100 kHz. Leave out where the display module has its own.',
  ),
  statusLamp: module(
    'RGB',
    'three-colour LED, common cathode',
    '5 V supply, 10 mA a colour',
    'demo',
    'Status lamp.',
  ),
  redSeries: resistor(330, 'computed', '2.0 V (from memory) at the LED: 9 mA.'),
  greenSeries: resistor(220, 'computed', '3.0 V (from memory) at the LED: 9 mA.'),
  blueSeries: resistor(220, 'computed', '3.0 V (from memory) at the LED: 9 mA.'),
  buzzer: {
    ...module(
      '5 V',
      'buzzer with its own oscillator, magnetic',
      '5 V, 30 mA',
      'demo',
      'Sounds while it is powered.',
    ),
    winding: true,
  },
} as const satisfies Readonly<Record<string, PartType>>;
