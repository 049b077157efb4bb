/** Sheet 1: supply, fuses, emergency stop, regulator, and the controller with every pin. */
import { PIN_NAMES, PINS } from '../pin-map.ts';
import { block, ground, label, lying, noteLines, type Piece, standing, wire } from './build.ts';
import type { Sheet } from './sheet.ts';
import { type BoxForm, PITCH } from './symbols.ts';

const SOURCE: Piece = {
  placements: [
    standing('PS1', [2, 6]),
    lying('F1', [18, 7]),
    standing('VD1', [25, 11]),
    standing('C1', [35, 11]),
    lying('S1a', [44, 7]),
  ],
  wires: [
    wire('12V_IN', [12, 7], [16, 7]),
    wire('GND', [12, 9], [14, 9], [14, 11]),
    wire('12V', [20, 7], [42, 7]),
    wire('12V', [25, 7], [25, 9]),
    wire('12V', [35, 7], [35, 9]),
    wire('12V', [41, 7], [41, 22], [51, 22]),
  ],
  labels: [ground([14, 11]), ground([25, 13]), ground([35, 13]), label('12V', [30, 7], 'up')],
};

const BRANCHES: Piece = {
  placements: [
    lying('F2', [53, 7]),
    lying('F3', [53, 12]),
    lying('F4', [53, 17]),
    lying('F5', [53, 22]),
  ],
  wires: [
    wire('12V_ACT', [46, 7], [51, 7]),
    wire('12V_ACT', [49, 7], [49, 17], [51, 17]),
    wire('12V_ACT', [49, 12], [51, 12]),
  ],
  labels: [
    label('12V_PUMP', [55, 7], 'right'),
    label('12V_VALVES', [55, 12], 'right'),
    label('12V_LAMP', [55, 17], 'right'),
    label('12V_LOGIC', [55, 22], 'right'),
  ],
};

const SUPPLY = block('12 V: fuses, emergency stop', [4, 6.6], [65, 32], SOURCE, BRANCHES, {
  notes: noteLines(
    [0.8, 25.2],
    [
      'S1a, first contact of the emergency stop (latching mushroom button), breaks all',
      '12 V that can move or shine, without software. The logic stays on, so',
      'that recording continues. The second contact, S1b, is read on D2 (sheet 3).',
      'PS1: bought adapter, isolated; no mains inside the unit. Keyed plug. With the',
      'supply reversed VD1 conducts and F1 opens.',
    ],
  ),
});

const REGULATOR = block('5 V', [4, 39.6], [65, 17], {
  placements: [standing('C2', [16, 11]), standing('U1', [26, 6]), standing('C3', [46, 11])],
  wires: [
    wire('12V_LOGIC', [11, 7], [26, 7]),
    wire('12V_LOGIC', [16, 7], [16, 9]),
    wire('GND', [26, 9], [24, 9], [24, 11]),
    wire('5V', [38, 7], [52, 7]),
    wire('5V', [46, 7], [46, 9]),
  ],
  labels: [
    label('12V_LOGIC', [11, 7], 'left'),
    ground([16, 13]),
    ground([24, 11]),
    ground([46, 13]),
    label('5V', [52, 7], 'right'),
  ],
});

const BRIDGE = block('Serial link, part of most controller boards', [4, 57.6], [65, 15], {
  placements: [standing('X1', [10, 6])],
  labels: [
    label('D0', [10, 7], 'left'),
    label('D1', [10, 9], 'left'),
    label('GND', [10, 11], 'left'),
  ],
  notes: noteLines(
    [28, 4],
    [
      'USB to the host, 250000 baud. Opening the port',
      'resets most boards: everything goes safe, then',
      'the firmware starts again. With USB alone the',
      'logic runs and nothing can move. The board must',
      'have its own diode from USB to 5 V.',
    ],
  ),
});

const digital = PIN_NAMES.filter((name) => PINS[name].label.startsWith('D'));
const analogue = PIN_NAMES.filter((name) => PINS[name].label.startsWith('A'));

export const CONTROLLER_FORM: BoxForm = {
  width: 31,
  left: [...digital, '5V', 'GND'],
  right: analogue,
  shown: Object.fromEntries([
    ...digital.map((name) => [name, `${PINS[name].label} ${name}`]),
    ...analogue.map((name) => [name, `${name} ${PINS[name].label}`]),
  ]),
};

const BOX = { x: 6, y: 8 } as const;
const row = (index: number): number => BOX.y + index * PITCH + PITCH / 2;

const CONTROLLER = block('Controller: every pin', [70, 6.6], [45, 66], {
  placements: [standing('N1', [BOX.x, BOX.y])],
  labels: [
    ...digital.map((name, index) => label(PINS[name].label, [BOX.x, row(index)], 'left')),
    label('5V', [BOX.x, row(digital.length)], 'left'),
    label('GND', [BOX.x, row(digital.length + 1)], 'left'),
    ...analogue.map((name, index) =>
      label(PINS[name].label, [BOX.x + CONTROLLER_FORM.width, row(index)], 'right'),
    ),
  ],
  notes: noteLines(
    [1.5, 44],
    [
      'Pins and meanings are those of pin-map.ts. The chip in',
      'its 32-lead package: A6 and A7 are brought out.',
      '',
      'D6 to D10 drive what can do harm; each has a pull-down',
      'of 10 kΩ at its driver and is low when safe.',
      'D2 to D4 read the safety switches: low while sound, so',
      'that a broken wire reads as the unsafe position.',
      '5 V is the reference of the converter and feeds the',
      'sensors: ratios count, the exact voltage does not.',
      'Only A7, the supply, relies on 5 V itself.',
    ],
  ),
});

export const POWER: Sheet = {
  file: 'power.svg',
  title: 'Meniscus wiring 1 of 5: power and controller',
  blocks: [SUPPLY, REGULATOR, BRIDGE, CONTROLLER],
  notes: [
    'Names in capitals, and D or A with a number, join points of the same name on all sheets. Not a certified design; no certification is claimed.',
    'Fuses: T is slow. Wire of the 12 V side 0.75 mm² or more, so that each fuse opens before its wire is hot (rule of thumb: 6 A).',
  ],
};
