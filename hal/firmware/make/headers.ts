/**
 * Generates the firmware's two headers, pins.h and protocol.h, from the pin map and the protocol,
 * so that no number is written both in C and in TypeScript. Pure: returns text, touches no files.
 * wiring/pin-map.ts and hal/firmata/protocol.ts define the numbers. A test checks that the
 * committed headers are up to date.
 */

import { CHANNELS } from '../../../src/core/frame.ts';
import { LETTER_COLUMNS, LETTER_ROWS, LETTER_SLOTS } from '../../../src/core/letters.ts';
import {
  BUTTON_LADDER,
  DISPLAY_ADDRESS,
  DISPLAY_BITS,
  PIN_NAMES,
  PINS,
  type PinRow,
} from '../../../wiring/pin-map.ts';
import * as protocol from '../../firmata/protocol.ts';

const FIRST_ANALOGUE_PIN = 14;
const PWM_REGISTERS = {
  OC1A: { COMPARE: 'OCR1A', CONNECT: '_BV(COM1A1)' },
  OC1B: { COMPARE: 'OCR1B', CONNECT: '_BV(COM1B1)' },
} as const;

/** Roles whose pins the firmware names one by one; peripherals of the chip own the others. */
const DRIVEN_OR_READ: readonly PinRow['role'][] = ['actuator', 'signal', 'safety-switch'];

const upperSnake = (name: string) =>
  name
    .replace(/([a-z0-9])([A-Z])/g, '$1_$2')
    .replace(/-/g, '_')
    .toUpperCase();

type Define = readonly [name: string, value: string | number];

const lines = (defines: readonly Define[]) =>
  defines.map(([name, value]) => `#define ${name} ${value}`).join('\n');

const numbered = (prefix: string, values: Readonly<Record<string, number>>): Define[] =>
  Object.entries(values).map(([name, value]) => [`${prefix}_${upperSnake(name)}`, value]);

const listed = (prefix: string, names: readonly string[]): Define[] =>
  names.map((name, index) => [`${prefix}_${upperSnake(name)}`, index]);

const bytesOf = (layout: protocol.Layout) => layout.reduce((sum, [, bytes]) => sum + bytes, 0);

const layoutLines = (prefix: string, layout: protocol.Layout): string =>
  lines([
    ...layout.map(([name, bytes]): Define => [`${prefix}_${upperSnake(name)}_GROUPS`, bytes]),
    [`${prefix}_BODY_BYTES`, bytesOf(layout)],
  ]);

const header = (guard: string, from: string, parts: readonly string[]): string =>
  `${[
    `/* Generated from ${from} by write-headers.ts. Do not edit. */`,
    `#ifndef ${guard}\n#define ${guard}`,
    ...parts,
    '#endif',
  ].join('\n\n')}\n`;

const rows: readonly PinRow[] = PIN_NAMES.map((name) => PINS[name]);
const byPin = [...rows].sort((a, b) => a.firmataPin - b.firmataPin);
const scanned = byPin.filter((row) => row.adcChannel !== null);

function pinLines(name: string, row: PinRow): string {
  const prefix = upperSnake(name);
  const defines: Define[] = [[`${prefix}_PIN`, row.firmataPin]];
  if (row.port !== null && DRIVEN_OR_READ.includes(row.role)) {
    const { letter, bit } = row.port;
    defines.push(
      [`${prefix}_PORT`, `PORT${letter}`],
      [`${prefix}_IN`, `PIN${letter}`],
      [`${prefix}_BIT`, bit],
    );
  }
  if (row.port !== null && row.role === 'bus') defines.push([`${prefix}_BIT`, row.port.bit]);
  if (row.pwm !== null) {
    const { COMPARE, CONNECT } = PWM_REGISTERS[row.pwm];
    defines.push([`${prefix}_COMPARE`, COMPARE], [`${prefix}_CONNECT`, CONNECT]);
  }
  if (row.adcChannel !== null) defines.push([`${prefix}_SCAN`, scanned.indexOf(row)]);
  return lines(defines);
}

function maskLines(): string {
  const ports = ['B', 'D'] as const;
  return lines(
    DRIVEN_OR_READ.flatMap((role) =>
      ports.map((letter): Define => {
        const mask = rows.reduce(
          (sum, row) =>
            row.role === role && row.port?.letter === letter ? sum | (1 << row.port.bit) : sum,
          0,
        );
        return [`${upperSnake(role)}_MASK_${letter}`, `0x${mask.toString(16)}`];
      }),
    ),
  );
}

const ladderLines = (): string =>
  lines(
    Object.entries(BUTTON_LADDER.bands).flatMap(([name, band]) =>
      numbered(`BAND_${upperSnake(name)}`, band),
    ),
  );

export function pinsHeader(): string {
  const roles = byPin.map((row) => `ROLE_${upperSnake(row.role)}`);
  const duties = byPin.filter((row) => row.pwm !== null);
  return header('PINS_H', 'wiring/pin-map.ts', [
    '/* Firmata pin numbers, with port and bit. */',
    ...PIN_NAMES.map((name) => pinLines(name, PINS[name])),
    '/* Pin masks by role and port. */',
    maskLines(),
    '/* All pins in order. */',
    lines([
      ['PIN_COUNT', byPin.length],
      ['FIRST_ANALOGUE_PIN', FIRST_ANALOGUE_PIN],
      ['ANALOGUE_INPUTS', byPin.length - FIRST_ANALOGUE_PIN],
    ]),
    `#define PIN_ROLES \\\n  {${roles.join(', \\\n   ')}}`,
    lines([['DUTY_PINS', `{${duties.map((row) => row.firmataPin).join(', ')}}`]]),
    '/* Channels of one converter scan, in the order of their *_SCAN index. */',
    lines([
      ['SCAN_LENGTH', scanned.length],
      ['SCAN_CHANNELS', `{${scanned.map((row) => row.adcChannel).join(', ')}}`],
    ]),
    '/* Bands of the button ladder in counts. */',
    ladderLines(),
    '/* The display. */',
    lines([
      ['DISPLAY_ADDRESS', `0x${DISPLAY_ADDRESS.toString(16)}`],
      ...numbered('DISPLAY_BIT', DISPLAY_BITS),
    ]),
  ]);
}

function layoutParts(): string[] {
  const p = protocol;
  return [
    '/* Number of seven-bit groups in each field. */',
    layoutLines('FRAME', p.FRAME_LAYOUT),
    '/* Analogue channels of a frame, in order. */',
    `#define FRAME_CHANNELS(FIELD) \\\n  ${CHANNELS.map((name) => `FIELD(${upperSnake(name)})`).join(' \\\n  ')}`,
    layoutLines('OUTPUTS', p.OUTPUTS_LAYOUT),
    layoutLines('LIMITS', p.LIMITS_LAYOUT),
    layoutLines('LIMITS_REPORT', p.LIMITS_REPORT_LAYOUT),
    layoutLines('REFUSAL', p.REFUSAL_LAYOUT),
    layoutLines('TEXT', p.TEXT_LAYOUT),
    layoutLines('LETTER', p.LETTER_LAYOUT),
    lines([
      ['TEXT_COLUMNS', p.TEXT_COLUMNS],
      ['TEXT_ROWS', p.TEXT_ROWS],
      ['LETTER_SLOTS', LETTER_SLOTS],
      ['LETTER_ROWS', LETTER_ROWS],
      ['LETTER_COLUMNS', LETTER_COLUMNS],
    ]),
    lines([
      ...listed(
        'LIMIT',
        p.LIMITS_LAYOUT.map(([name]) => name),
      ),
      ['LIMIT_COUNT', p.LIMITS_LAYOUT.length],
    ]),
    lines(listed('VERDICT', p.LIMITS_VERDICTS)),
    lines(listed('REFUSAL', p.REFUSALS)),
    lines(listed('LADDER', p.LADDER_STEPS)),
  ];
}

export function protocolHeader(): string {
  const p = protocol;
  return header('PROTOCOL_H', 'hal/firmata/protocol.ts', [
    lines([
      ['FIRMWARE_NAME', `"${p.FIRMWARE_NAME}"`],
      ...numbered('FIRMWARE', p.FIRMWARE_VERSION),
      ['BAUD_RATE', p.BAUD],
      ['SYSEX_START', p.SYSEX_START],
      ['SYSEX_END', p.SYSEX_END],
      ['UNIT_SYSEX', p.UNIT_SYSEX],
    ]),
    lines(numbered('KIND', p.KINDS)),
    '/* Bit numbers of the trips. */',
    lines([...listed('TRIP', p.TRIP_BITS), ['TRIP_COUNT', p.TRIP_BITS.length]]),
    ...layoutParts(),
    '/* Bit masks. */',
    lines([
      ...numbered('SWITCH', p.SWITCH_BITS),
      ...numbered('ACTING', p.ACTING_BITS),
      ...numbered('FLAG', p.OUTPUT_FLAGS),
    ]),
    lines([...numbered('PRESS_SHIFT', p.PRESS_SHIFT), ['FULL_DUTY', p.FULL_DUTY]]),
    '/* Compiled limits, which a host may only tighten, and the live ranges of the sensors. */',
    lines([
      ...numbered('COMPILED', p.COMPILED_LIMITS),
      ...numbered('PRESSURE_LIVE', p.PRESSURE_LIVE),
      ...numbered('THERMISTOR_LIVE', p.THERMISTOR_LIVE),
      ...numbered('REFERENCE_LIVE', p.REFERENCE_LIVE),
    ]),
  ]);
}
