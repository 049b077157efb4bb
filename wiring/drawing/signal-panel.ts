/** The panel's part of sheet 3: display, status lamp, buzzer, and how a switch fails by design. */
import { block, ground, label, lying, noteLines, standing, upsideDown, wire } from './build.ts';
import type { Block } from './sheet.ts';
import { CELL_SIZE, cell } from './signal-cells.ts';

const DISPLAY = block('Display, I2C', cell(0, 2), CELL_SIZE, {
  placements: [standing('H1', [16, 8]), standing('R30', [8, 7]), upsideDown('R31', [8, 17])],
  wires: [
    wire('A4', [5, 11], [16, 11]),
    wire('A4', [8, 9], [8, 11]),
    wire('A5', [5, 13], [16, 13]),
    wire('A5', [8, 13], [8, 15]),
    wire('GND', [16, 15], [15, 15], [15, 16]),
  ],
  labels: [
    label('5V', [16, 9], 'left'),
    label('5V', [8, 5], 'up'),
    label('5V', [8, 19], 'down'),
    label('A4', [5, 11], 'left'),
    label('A5', [5, 13], 'left'),
    ground([15, 16]),
  ],
});

const COLOURS = [
  ['D11', 'R32', 'STATUS_RED', 6],
  ['D12', 'R33', 'STATUS_GREEN', 10],
  ['D13', 'R34', 'STATUS_BLUE', 14],
] as const;

const STATUS = block('Status lamp', cell(1, 2), CELL_SIZE, {
  placements: [
    standing('HL1', [17, 5]),
    ...COLOURS.map(([, resistor, , y]) => lying(resistor, [10, y])),
  ],
  wires: [
    ...COLOURS.map(([, , net, y]) => wire(net, [12, y], [17, y])),
    wire('GND', [17, 18], [15, 18], [15, 19]),
  ],
  labels: [...COLOURS.map(([pin, , , y]) => label(pin, [8, y], 'left')), ground([15, 19])],
});

const BUZZER = block('Buzzer', cell(2, 2), CELL_SIZE, {
  placements: [
    standing('BZ1', [18, 6]),
    standing('VD5', [13, 8], 'left'),
    standing('Q6', [12, 14]),
    lying('R35', [5.5, 14]),
    standing('R36', [8.5, 17], 'left'),
  ],
  wires: [
    wire('5V', [13, 5], [13, 6]),
    wire('5V', [13, 5], [16, 5], [16, 7], [18, 7]),
    wire('BUZZER_DRAIN', [13, 10], [13, 12]),
    wire('BUZZER_DRAIN', [13, 11], [16, 11], [16, 9], [18, 9]),
    wire('BUZZER_GATE', [7.5, 14], [10, 14]),
    wire('BUZZER_GATE', [8.5, 14], [8.5, 15]),
  ],
  labels: [
    label('5V', [13, 5], 'up'),
    label('D5', [3.5, 14], 'left'),
    ground([8.5, 19]),
    ground([13, 16]),
  ],
});

const NOTES = block('How the inputs fail', cell(3, 2), CELL_SIZE, {
  notes: noteLines(
    [0.8, 4.5],
    [
      'Switch wire broken: reads unsafe.',
      'Switch wire shorted to ground: reads',
      'sound; S1a and S3a still stop, S2 not:',
      'the bring-up check finds it.',
      'Sensor wire broken: 0 V or 5 V, both',
      'outside the live range.',
      '5 V shorted by a sensor cable: the',
      'controller resets, and all is safe.',
      'Ladder wire broken: reads open,',
      'which is told and holds the job.',
      'Ladder wire shorted: reads as HOLD.',
    ],
  ),
});

export const SIGNAL_PANEL_BLOCKS: readonly Block[] = [DISPLAY, STATUS, BUZZER, NOTES];
