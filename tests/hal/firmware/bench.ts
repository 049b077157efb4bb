/**
 * The committed image on the emulated chip, wired as a sound unit: switches closed, counts inside
 * their ranges. FIRMWARE_IMAGE names a folder with another image and its image.json. Speaks our
 * messages with protocol.ts and sorts what the board sends. All times are board time.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  COMPILED_LIMITS,
  decodeFields,
  encodeFields,
  type Fields,
  FRAME_LAYOUT,
  KINDS,
  LIMITS_LAYOUT,
  LIMITS_REPORT_LAYOUT,
  OUTPUT_FLAGS,
  OUTPUTS_LAYOUT,
  openMessage,
  REFUSAL_LAYOUT,
  SYSEX_END,
  SYSEX_START,
  TRIP_BITS,
  UNIT_SYSEX,
} from '../../../hal/firmata/protocol.ts';
import type { ImageFacts } from '../../../hal/firmware/make/image-facts.ts';
import { createChip } from '../../../sim/emulator/chip.ts';
import { loadImage } from '../../../sim/emulator/image.ts';
import type { Channel } from '../../../src/core/frame.ts';
import { PINS } from '../../../wiring/pin-map.ts';

const { FIRMWARE_IMAGE } = process.env;
const imageFolder =
  FIRMWARE_IMAGE ?? fileURLToPath(new URL('../../../hal/firmware/image', import.meta.url));
const image = loadImage(readFileSync(join(imageFolder, 'meniscus.hex'), 'utf8'));
export const imageFacts: Pick<ImageFacts, 'dataAddresses' | 'sizeBytes'> = JSON.parse(
  readFileSync(join(imageFolder, 'image.json'), 'utf8'),
);

export type FrameFields = Fields<typeof FRAME_LAYOUT>;
/** Numbered where it is sent. */
export type OutputFields = Omit<Fields<typeof OUTPUTS_LAYOUT>, 'sequence'>;
export type LimitFields = Fields<typeof LIMITS_LAYOUT>;
export type Trip = (typeof TRIP_BITS)[number];

export type AnalogueName = Channel | 'buttons';

/** The middle of a count, so that the converter gives exactly it. */
const voltsOf = (counts: number) => ((counts + 0.5) * 5) / 1024;

export const SAFE_OUTPUTS: OutputFields = { flags: OUTPUT_FLAGS.ventOpen, pump: 0, lamp: 0 };
export const CLEAR: OutputFields = {
  ...SAFE_OUTPUTS,
  flags: OUTPUT_FLAGS.ventOpen | OUTPUT_FLAGS.clearTrips,
};
/** Pump at half, vent closed, pressure side, lamp at most of its current. */
export const BUSY: OutputFields = {
  flags: OUTPUT_FLAGS.selectorPressure | OUTPUT_FLAGS.lampEnabled,
  pump: 128,
  lamp: 200,
};

export const sysex = (bytes: readonly number[]) => [SYSEX_START, ...bytes, SYSEX_END];
let sequence = 0;
/** Every call gives a message with the next number. */
export const outputsMessage = (fields: OutputFields) => {
  sequence = (sequence + 1) % 128 ** 2;
  return sysex([
    UNIT_SYSEX,
    ...encodeFields(KINDS.outputs, OUTPUTS_LAYOUT, { ...fields, sequence }),
  ]);
};
export const limitsMessage = (fields: Partial<LimitFields>) =>
  sysex([
    UNIT_SYSEX,
    ...encodeFields(KINDS.limits, LIMITS_LAYOUT, { ...COMPILED_LIMITS, ...fields }),
  ]);
export const intervalMessage = (ms: number) => sysex([0x7a, ms % 128, Math.floor(ms / 128)]);

/** Sysex messages in a stream, without their frame bytes. */
export function sysexesIn(bytes: readonly number[]): number[][] {
  const found: number[][] = [];
  let begun: number[] | null = null;
  for (const byte of bytes) {
    if (byte === SYSEX_START) begun = [];
    else if (byte === SYSEX_END && begun !== null) {
      found.push(begun);
      begun = null;
    } else begun?.push(byte);
  }
  return found;
}

export interface BenchOptions {
  readonly i2c?: Parameters<typeof createChip>[0]['i2c'];
  /** Sampling interval asked for at the start; null to leave frames off. */
  readonly samplingMs?: number | null;
  /** Board time from its first byte until anything is asked; shifts what follows against the tick. */
  readonly settleS?: number;
}

export function createBench({ i2c, samplingMs = 10, settleS = 0.02 }: BenchOptions = {}) {
  const sent: number[] = [];
  const chip = createChip({
    image,
    onTransmit: (byte) => sent.push(byte),
    ...(i2c === undefined ? {} : { i2c }),
  });
  const setCounts = (name: AnalogueName, counts: number) =>
    chip.setVolts(PINS[name].adcChannel ?? Number.NaN, voltsOf(counts));
  const setSwitch = (
    name: 'emergencyStop' | 'overPressureSwitch' | 'shieldSwitch',
    open: boolean,
  ) => chip.setLevel(PINS[name].firmataPin, open);
  for (const name of ['emergencyStop', 'overPressureSwitch', 'shieldSwitch'] as const) {
    setSwitch(name, false);
  }
  setCounts('pressure', 300);
  setCounts('irradiance', 102);
  setCounts('glassTemperature', 510);
  // Nothing down: 68 kOhm under 10.
  setCounts('buttons', 892);
  setCounts('heatSinkTemperature', 500);
  setCounts('supplyVoltage', 614);
  // The march through the RAM and the check of the flash come first.
  while (sent.length === 0) chip.run(0.0001);
  const bootMs = chip.timeS() * 1000;
  chip.run(settleS);
  if (samplingMs !== null) chip.receive(intervalMessage(samplingMs));
  chip.run(0.03);

  const messages = (kind: number) =>
    sysexesIn(sent)
      .filter(([command, found]) => command === UNIT_SYSEX && found === kind)
      .map((bytes) => openMessage(bytes.slice(1)))
      .flatMap((opened) => (opened.ok ? [opened.body] : []));
  const frames = () =>
    messages(KINDS.frame).flatMap((body) => decodeFields(FRAME_LAYOUT, body) ?? []);
  const lastFrame = (): FrameFields => {
    sent.splice(0, Math.max(0, sent.length - 400));
    return frames().at(-1)!;
  };
  const send = (bytes: readonly number[], thenS = 0.005) => {
    chip.receive(bytes);
    // The line takes its time: 174 us a byte.
    chip.run(bytes.length * 0.000176 + thenS);
  };
  return {
    chip,
    /** Board time of the start of the program, to 0.2 ms. */
    bootMs,
    sent,
    send,
    frames,
    lastFrame,
    setCounts,
    setSwitch,
    want: (fields: OutputFields) => send(outputsMessage(fields)),
    /** A frame's worth of time, then what the last frame says has tripped. */
    trips: (): Trip[] => {
      chip.run(0.03);
      const { trips } = lastFrame();
      return TRIP_BITS.filter((_, bit) => trips & (1 << bit));
    },
    refusals: () =>
      messages(KINDS.refusal).flatMap((body) => decodeFields(REFUSAL_LAYOUT, body) ?? []),
    limitsReports: () =>
      messages(KINDS.limitsReport).flatMap(
        (body) => decodeFields(LIMITS_REPORT_LAYOUT, body) ?? [],
      ),
    /** What the pins do to the actuators. */
    pins: () => ({
      pump: Math.round(chip.duty(PINS.pumpDrive.firmataPin) * 255),
      lamp: Math.round(chip.duty(PINS.lampDrive.firmataPin) * 255),
      ventOpen: !chip.level(PINS.ventClose.firmataPin),
      lampEnabled: chip.level(PINS.lampEnable.firmataPin),
      pressureSide: chip.level(PINS.selectorPressure.firmataPin),
    }),
    buzzes: () => chip.level(PINS.buzzer.firmataPin),
    /** Board time until `reached`, in steps of 20 us; Infinity when not within `atMostS`. */
    timeUntil: (reached: () => boolean, atMostS = 0.05): number => {
      const begunS = chip.timeS();
      while (!reached()) {
        if (chip.timeS() - begunS > atMostS) return Number.POSITIVE_INFINITY;
        chip.run(0.00002);
      }
      return chip.timeS() - begunS;
    },
  };
}

export type Bench = ReturnType<typeof createBench>;

export const PINS_SAFE = {
  pump: 0,
  lamp: 0,
  ventOpen: true,
  lampEnabled: false,
  pressureSide: false,
};
export const PINS_BUSY = {
  pump: 128,
  lamp: 200,
  ventOpen: false,
  lampEnabled: true,
  pressureSide: true,
};
