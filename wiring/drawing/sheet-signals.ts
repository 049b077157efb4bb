/** Sheet 3: what is read (switches, sensors, buttons) and what is shown (display, lamp, buzzer). */
import { block, ground, label, lying, noteLines, type Piece, standing, wire } from './build.ts';
import type { Block, Sheet } from './sheet.ts';
import { CELL_SIZE, cell } from './signal-cells.ts';
import { SIGNAL_PANEL_BLOCKS } from './signal-panel.ts';

interface SwitchRow {
  readonly title: string;
  readonly column: number;
  readonly pin: string;
  readonly node: string;
  readonly contact: string;
  readonly pullUp: string;
  readonly series: string;
  readonly filter: string;
  readonly note: string;
}

const switchRead = (row: SwitchRow): Block =>
  block(row.title, cell(row.column, 0), CELL_SIZE, {
    placements: [
      standing(row.pullUp, [6, 7]),
      standing(row.contact, [6, 14]),
      lying(row.series, [14, 10]),
      standing(row.filter, [19, 13]),
    ],
    wires: [
      wire(row.node, [6, 9], [6, 12]),
      wire(row.node, [6, 10], [12, 10]),
      wire(row.pin, [16, 10], [22, 10]),
      wire(row.pin, [19, 10], [19, 11]),
    ],
    labels: [
      label('5V', [6, 5], 'up'),
      ground([6, 16]),
      ground([19, 15]),
      label(row.pin, [22, 10], 'right'),
    ],
    notes: noteLines([0.8, 20], [row.note]),
  });

interface TransmitterRow {
  readonly title: string;
  readonly column: number;
  readonly pin: string;
  readonly out: string;
  readonly sensor: string;
  readonly wireBreak: string;
  readonly series: string;
  readonly filter: string;
}

const transmitter = (row: TransmitterRow): Block =>
  block(row.title, cell(row.column, 0), CELL_SIZE, {
    placements: [
      standing(row.sensor, [2, 6]),
      standing(row.wireBreak, [13, 13]),
      lying(row.series, [17, 9]),
      standing(row.filter, [21, 12]),
    ],
    wires: [
      wire(row.out, [10, 9], [15, 9]),
      wire(row.out, [13, 9], [13, 11]),
      wire('GND', [10, 11], [11, 11], [11, 13]),
      wire(row.pin, [19, 9], [23, 9]),
      wire(row.pin, [21, 9], [21, 10]),
    ],
    labels: [
      label('5V', [10, 7], 'right'),
      ground([11, 13]),
      ground([13, 15]),
      ground([21, 14]),
      label(row.pin, [23, 9], 'right'),
    ],
    notes: noteLines([0.8, 19], ['0.5 to 4.5 V at 5 V, ratiometric.', 'A broken wire reads 0 V.']),
  });

interface DividerRow {
  readonly title: string;
  readonly column: number;
  readonly pin: string;
  readonly supply: '5V' | '12V';
  readonly upper: string;
  readonly lower: string;
  readonly filter: string;
  readonly note: string;
}

const divider = (row: DividerRow): Block =>
  block(row.title, cell(row.column, 1), CELL_SIZE, {
    placements: [
      standing(row.upper, [9, 7], 'left'),
      standing(row.lower, [9, 13], 'left'),
      standing(row.filter, [16, 13]),
    ],
    wires: [
      wire(row.pin, [9, 9], [9, 11]),
      wire(row.pin, [9, 10], [21, 10]),
      wire(row.pin, [16, 10], [16, 11]),
    ],
    labels: [
      label(row.supply, [9, 5], 'up'),
      ground([9, 15]),
      ground([16, 15]),
      label(row.pin, [21, 10], 'right'),
    ],
    notes: noteLines([0.8, 20], [row.note]),
  });

const LADDER: Piece = {
  placements: [
    standing('R27', [2, 7]),
    standing('C12', [2, 13]),
    standing('SB4', [6.4, 17]),
    standing('R28', [11.2, 13]),
    standing('SB2', [11.2, 17]),
    standing('R29', [17, 13]),
    standing('SB3', [17, 17]),
    standing('R37', [22, 13]),
    standing('SB1', [22, 17]),
    lying('R38', [14, 7]),
  ],
  wires: [
    wire('A3', [2, 10], [24, 10]),
    wire('A3', [2, 9], [2, 11]),
    wire('A3', [6.4, 10], [6.4, 15]),
    wire('A3', [11.2, 10], [11.2, 11]),
    wire('A3', [17, 10], [17, 11]),
    wire('A3', [22, 10], [22, 11]),
    wire('A3', [9, 10], [9, 7], [12, 7]),
    wire('GND', [16, 7], [18, 7]),
  ],
  labels: [
    label('5V', [2, 5], 'up'),
    label('A3', [24, 10], 'right'),
    ground([2, 15]),
    ground([6.4, 19]),
    ground([11.2, 19]),
    ground([17, 19]),
    ground([22, 19]),
    ground([18, 7]),
  ],
};

const BLOCKS: readonly Block[] = [
  switchRead({
    title: 'Emergency stop, second contact',
    column: 0,
    pin: 'D2',
    node: 'STOP_CONTACT',
    contact: 'S1b',
    pullUp: 'R15',
    series: 'R16',
    filter: 'C5',
    note: 'Drawn released. Low while released.',
  }),
  switchRead({
    title: 'Shield switch, second contact',
    column: 1,
    pin: 'D4',
    node: 'SHIELD_CONTACT',
    contact: 'S3b',
    pullUp: 'R17',
    series: 'R18',
    filter: 'C6',
    note: 'Drawn with the shield closed: low.',
  }),
  transmitter({
    title: 'Chamber pressure',
    column: 2,
    pin: 'A0',
    out: 'PRESSURE_OUT',
    sensor: 'U3',
    wireBreak: 'R19',
    series: 'R20',
    filter: 'C7',
  }),
  transmitter({
    title: 'UV irradiance',
    column: 3,
    pin: 'A1',
    out: 'IRRADIANCE_OUT',
    sensor: 'U4',
    wireBreak: 'R21',
    series: 'R22',
    filter: 'C8',
  }),
  divider({
    title: 'Glass thermistor',
    column: 0,
    pin: 'A2',
    supply: '5V',
    upper: 'R23',
    lower: 'RT1',
    filter: 'C9',
    note: 'Taped to the glass beside the break.',
  }),
  divider({
    title: 'Heat sink thermistor',
    column: 1,
    pin: 'A6',
    supply: '5V',
    upper: 'R24',
    lower: 'RT2',
    filter: 'C10',
    note: 'Glued to the heat sink of the lamp.',
  }),
  divider({
    title: 'Supply voltage',
    column: 2,
    pin: 'A7',
    supply: '12V',
    upper: 'R25',
    lower: 'R26',
    filter: 'C11',
    note: '5 V at 20 V: 12 V reads 3 V.',
  }),
  block('Buttons', cell(3, 1), CELL_SIZE, LADDER, {
    notes: [
      ...noteLines([7.3, 18.4], ['HOLD']),
      ...noteLines([12.1, 18.4], ['NO']),
      ...noteLines([17.9, 18.4], ['MORE']),
      ...noteLines([22.9, 18.4], ['YES']),
    ],
  }),
  ...SIGNAL_PANEL_BLOCKS,
];

export const SIGNALS: Sheet = {
  file: 'signals.svg',
  title: 'Meniscus wiring 3 of 5: signals',
  blocks: BLOCKS,
  notes: [
    'Names in capitals, and D or A with a number, join points of the same name on all sheets. Sensor cables screened, screen to ground at the controller only.',
  ],
};
