/** The drivers of pump, valves and lamp, and the loads themselves. */
import { LAMP_HEAD } from './lamp-head.ts';
import { module, type PartType, resistor, type } from './part-type.ts';

export const DRIVE_TYPES = {
  gate: resistor(
    100,
    'rule of thumb',
    'In a gate line: holds the charging current of the gate under the 40 mA of a pin.',
  ),
  pullDown: resistor(
    10_000,
    'rule of thumb',
    'Holds a drive off while the controller resets, is not programmed or is unplugged.',
  ),
  driveMosfet: type(
    'nmos',
    'N-MOSFET',
    'N-channel MOSFET, logic level',
    '40 V or more, 5 A or more, under 50 mΩ at 4.5 V on the gate',
    'computed',
    'Stalled pump 1.5 A: 75 mV and 0.11 W, no heat sink. Voltage is three times the supply.',
  ),
  signalMosfet: type(
    'nmos',
    'N-MOSFET small',
    'N-channel MOSFET, small signal, logic level',
    '40 V or more, 0.2 A',
    'computed',
    'Carries 11 mA of gate pull-up, or 30 mA of buzzer.',
  ),
  highSideMosfet: type(
    'pmos',
    'P-MOSFET',
    'P-channel MOSFET',
    '-40 V, -5 A, under 80 mΩ at -10 V, gate rated ± 20 V',
    'computed',
    'Lamp 1.2 A: 0.1 W. The gate sees -10.9 V.',
  ),
  schottky: type(
    'diode',
    '40 V 3 A',
    'Schottky diode',
    '40 V, 3 A',
    'computed',
    'Fly-back of the pump, which is switched many times a second: must be fast and carry the stall current.',
  ),
  flyback: type(
    'diode',
    '100 V 1 A',
    'rectifier diode',
    '100 V or more, 1 A',
    'rule of thumb',
    'Fly-back of a winding that is switched now and then.',
  ),
  pump: {
    ...type(
      'motor',
      '12 V pump',
      'diaphragm pump, vacuum and pressure, brushed motor',
      '12 V, 0.5 A running, 1.5 A stalled, 1.5 l/min, 8 kPa absolute to 230 kPa gauge',
      'demo',
      'Evacuates a 30 ml chamber in seconds; its dead head is the highest possible pressure.',
    ),
    winding: true,
  },
  ventValve: {
    ...type(
      'coil',
      '12 V NO valve',
      'solenoid valve 2/2, normally open, vacuum to 400 kPa absolute',
      '12 V, 4 W (0.35 A), made for 100 % duty',
      'demo',
      'Without power the chamber is open to the air. Energised for minutes at a time.',
    ),
    normally: 'open',
    winding: true,
  },
  selectorValve: {
    ...type(
      'coil',
      '12 V valve',
      'solenoid valve 4/2, spring return, vacuum to 400 kPa absolute',
      '12 V, 4 W (0.35 A), made for 100 % duty',
      'demo',
      'One pump serves both: without power it evacuates.',
    ),
    winding: true,
  },
  pinGuard: resistor(
    5600,
    'computed',
    'Against the pull-up in the chip (20 kΩ or more, from memory) it leaves 1.1 V, a sound low. Should a drive MOSFET fail shorted with the switch open, 12 V on the return puts 1.2 mA into the pin.',
  ),
  returnPullUp: resistor(
    1000,
    'computed',
    'Lifts the common return to 5 V when the switch opens; 5 mA wets the contact.',
  ),
  gatePullUp: resistor(10_000, 'rule of thumb', 'Holds the lamp supply off until it is enabled.'),
  gateSink: resistor(
    1000,
    'computed',
    '1 to 11 with the pull-up: 10.9 of 12 V reach the gate; 11 mA.',
  ),
  lampDriver: module(
    'current driver',
    'constant-current LED driver, step-down, with dimming input',
    '12 V in, current set for the lamp module, 1.2 A in at most; dims to zero while its input is low',
    'demo',
    'Light follows current. Check that a LOW dimming input means dark on the type you buy: on some types it is inverted.',
  ),
  uvLed: type(
    'led',
    `UV LED ${LAMP_HEAD.peakNm} nm`,
    'UV LED module on a heat sink',
    `${LAMP_HEAD.peakNm} nm (from memory: usual for such resins), 12 W electric, 20 mW/cm² at the glass`,
    'demo',
    'Figures of the simulated lamp.',
  ),
} as const satisfies Readonly<Record<string, PartType>>;
