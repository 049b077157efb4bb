/** Sheet 2: the drivers of pump, valves and lamp, with the contacts that stop them. */
import {
  block,
  ground,
  label,
  lying,
  noteLines,
  type Piece,
  standing,
  upsideDown,
  wire,
} from './build.ts';
import type { Point } from './shapes.ts';
import type { Block, Sheet } from './sheet.ts';

const SIZE: Point = [27, 27];

interface LowSide {
  readonly title: string;
  readonly at: Point;
  readonly pin: string;
  readonly gate: string;
  readonly drain: string;
  readonly supply: string;
  readonly source: 'GND' | 'RETURN';
  readonly gateResistor: string;
  readonly pullDown: string;
  readonly mosfet: string;
  readonly load: string;
  readonly diode: string;
  readonly notes: readonly string[];
}

/** A load between its supply and an N-MOSFET, with a diode across it and the gate held down. */
function lowSide(row: LowSide): Block {
  const power: Piece = {
    placements: [standing(row.load, [16, 8], 'left'), standing(row.diode, [19.5, 8])],
    wires: [
      wire(row.supply, [16, 5], [16, 6]),
      wire(row.supply, [16, 5], [19.5, 5], [19.5, 6]),
      wire(row.drain, [16, 10], [16, 12]),
      wire(row.drain, [19.5, 10], [19.5, 11], [16, 11]),
    ],
    labels: [label(row.supply, [16, 5], 'up')],
  };
  const drive: Piece = {
    placements: [
      standing(row.mosfet, [15, 14]),
      lying(row.gateResistor, [8, 14]),
      standing(row.pullDown, [11.5, 18], 'left'),
    ],
    wires: [
      wire(row.gate, [10, 14], [13, 14]),
      wire(row.gate, [11.5, 14], [11.5, 16]),
      wire(row.source, [16, 16], [16, 20]),
    ],
    labels: [
      label(row.pin, [6, 14], 'left'),
      ground([11.5, 20]),
      label(row.source, [16, 20], 'down'),
    ],
  };
  return block(row.title, row.at, SIZE, power, drive, { notes: noteLines([0.8, 24], row.notes) });
}

const TOP = 6.6;

const PUMP = lowSide({
  title: 'Pump',
  at: [4, TOP],
  pin: 'D9',
  gate: 'PUMP_GATE',
  drain: 'PUMP_DRAIN',
  supply: '12V_PUMP',
  source: 'RETURN',
  gateResistor: 'R1',
  pullDown: 'R2',
  mosfet: 'Q1',
  load: 'M1',
  diode: 'VD2',
  notes: ['D9 high runs it; duty at 490 Hz.', 'Without drive: off.'],
});

const VENT = lowSide({
  title: 'Vent valve, normally open',
  at: [32, TOP],
  pin: 'D6',
  gate: 'VENT_GATE',
  drain: 'VENT_DRAIN',
  supply: '12V_VALVES',
  source: 'RETURN',
  gateResistor: 'R3',
  pullDown: 'R4',
  mosfet: 'Q2',
  load: 'Y1',
  diode: 'VD3',
  notes: ['D6 high closes the vent.', 'Without drive or power: open.'],
});

const SELECTOR = lowSide({
  title: 'Selector valve',
  at: [88, TOP],
  pin: 'D7',
  gate: 'SELECTOR_GATE',
  drain: 'SELECTOR_DRAIN',
  supply: '12V_VALVES',
  source: 'GND',
  gateResistor: 'R5',
  pullDown: 'R6',
  mosfet: 'Q3',
  load: 'Y2',
  diode: 'VD4',
  notes: ['D7 high: chamber on the pressure side.', 'Without drive or power: on vacuum.'],
});

const OVER_PRESSURE = block('Common return, over-pressure switch', [60, TOP], SIZE, {
  placements: [
    standing('R7', [9, 7]),
    standing('S2', [12.5, 13], 'left'),
    lying('R8', [18, 10]),
    standing('C4', [21.5, 13]),
  ],
  wires: [
    wire('RETURN', [5.5, 10], [16, 10]),
    wire('RETURN', [9, 9], [9, 10]),
    wire('RETURN', [12.5, 10], [12.5, 11]),
    wire('D3', [20, 10], [23, 10]),
    wire('D3', [21.5, 10], [21.5, 11]),
  ],
  labels: [
    label('RETURN', [5.5, 10], 'left'),
    label('5V', [9, 5], 'up'),
    ground([12.5, 15]),
    ground([21.5, 15]),
    label('D3', [23, 10], 'right'),
  ],
  notes: noteLines(
    [0.8, 18.6],
    [
      'S2 is closed while pressure is sound and',
      'carries pump and vent coil. When it opens,',
      'RETURN rises to 5 V: no gate is above its',
      'source, pump off, vent open, and D3 reads',
      'high. A MOSFET that failed shorted finds',
      'no return through S2 either.',
    ],
  ),
});

const LAMP_SUPPLY: Piece = {
  placements: [
    lying('S3a', [13, 9]),
    standing('R9', [20, 12], 'left'),
    standing('Q4', [26, 12]),
    standing('R10', [22, 17]),
    standing('Q5', [21, 21]),
    lying('R11', [12, 21]),
    standing('R12', [16.5, 25], 'left'),
  ],
  wires: [
    wire('12V_LAMP', [9, 9], [11, 9]),
    wire('12V_SHIELD', [15, 9], [27, 9], [27, 10]),
    wire('12V_SHIELD', [20, 9], [20, 10]),
    wire('LAMP_GATE', [20, 14], [22, 14], [22, 12], [24, 12]),
    wire('LAMP_GATE', [22, 14], [22, 15]),
    wire('ENABLE_GATE', [14, 21], [19, 21]),
    wire('ENABLE_GATE', [16.5, 21], [16.5, 23]),
  ],
  labels: [
    label('12V_LAMP', [9, 9], 'left'),
    label('D8', [10, 21], 'left'),
    ground([16.5, 27]),
    ground([22, 23]),
  ],
};

const LAMP_CURRENT: Piece = {
  placements: [
    lying('S4', [36, 16]),
    standing('U2', [46, 15]),
    lying('R13', [34, 18], 'down'),
    standing('R14', [40, 22], 'left'),
    upsideDown('E1', [66, 19]),
  ],
  wires: [
    wire('12V_SWITCHED', [27, 14], [27, 16], [34, 16]),
    wire('12V_DRIVER', [38, 16], [46, 16]),
    wire('LAMP_DIM', [36, 18], [46, 18]),
    wire('LAMP_DIM', [40, 18], [40, 20]),
    wire('GND', [46, 20], [44, 20], [44, 22]),
    wire('LED_PLUS', [58, 16], [66, 16], [66, 17]),
    wire('LED_MINUS', [58, 18], [61, 18], [61, 22], [66, 22], [66, 21]),
  ],
  labels: [label('D10', [32, 18], 'left'), ground([40, 24]), ground([44, 22])],
};

const LAMP = block('UV lamp', [4, 34.8], [111, 32], LAMP_SUPPLY, LAMP_CURRENT, {
  notes: noteLines(
    [79, 7],
    [
      'S3a, first contact of the shield switch,',
      'breaks the supply of the lamp: dark with the',
      'shield open, whatever Q4 and U2 do.',
      '',
      'D8 high enables the supply. Q4 stays off',
      'while D8 is low, floats or is unplugged.',
      '',
      'D10 dims: duty at 490 Hz, low is dark.',
      'Check this on the driver you buy; on some',
      'a low or open input means full light.',
      '',
      'S4 sits on the heat sink of E1 beside RT2',
      '(sheet 3) and opens at 85 °C by itself.',
      'UV light hurts eyes and skin.',
    ],
  ),
});

export const DRIVES: Sheet = {
  file: 'drives.svg',
  title: 'Meniscus wiring 2 of 5: drives',
  blocks: [PUMP, VENT, OVER_PRESSURE, SELECTOR, LAMP],
  notes: [
    'Names in capitals, and D or A with a number, join points of the same name on all sheets. All values are engineering values of the demo unit.',
    'Pump and valve leads twisted, 0.5 mm² or more. The grounds of drives and of logic meet at the supply only.',
  ],
};
