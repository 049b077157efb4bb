import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import {
  decodeFields,
  encodeFields,
  encodeText,
  FRAME_LAYOUT,
  KINDS,
  LADDER_STEPS,
  OUTPUT_FLAGS,
  OUTPUTS_LAYOUT,
  PRESS_SHIFT,
  SWITCH_BITS,
  TEXT_COLUMNS,
} from '../../../hal/firmata/protocol.ts';
import { PERFECT, sensorRatios } from '../../../sim/board/sensors.ts';
import { runCommand } from '../../../sim/emulator/bench-commands.ts';
import { createEmulatedBench } from '../../../sim/emulator/emulated-bench.ts';
import { loadImage } from '../../../sim/emulator/image.ts';
import { createInProcessLine } from '../../../sim/emulator/in-process-line.ts';
import { createVirtualClock } from '../../../sim/emulator/virtual-clock.ts';
import type { Scenario } from '../../../sim/faults/scenario.ts';
import { SAFE } from '../../../src/core/frame.ts';
import { HEALTHY_TRUTH } from '../../frames.ts';
import { IMAGE_PATH } from './emulator-launcher.ts';
import { scenarioOf } from './scenarios.ts';
import { createUnitListener, unitMessage } from './unit-listener.ts';

const image = loadImage(readFileSync(IMAGE_PATH, 'utf8'));
type FrameFields = NonNullable<ReturnType<typeof decodeFields<typeof FRAME_LAYOUT>>>;
/** Firmata's own message; the board sends frames from then on. */
const SAMPLING_INTERVAL_20_MS = [0xf0, 0x7a, 20, 0, 0xf7];

const benchOf = (scenario: Partial<Scenario> = {}) => {
  const bench = createEmulatedBench({ image, scenario: scenarioOf(scenario) });
  const frames: FrameFields[] = [];
  const listener = createUnitListener((kind, body) => {
    const frame = kind === KINDS.frame ? decodeFields(FRAME_LAYOUT, body) : null;
    if (frame !== null) frames.push(frame);
  });
  bench.onHostBytes(listener.hear);
  bench.advance(0.1);
  bench.cable.fromHost(SAMPLING_INTERVAL_20_MS);
  bench.advance(0.1);
  let sequence = 0;
  const lease = (fields: { flags: number; pump: number; lamp: number }, seconds: number) => {
    for (let ms = 0; ms < seconds * 1000; ms += 100) {
      sequence += 1;
      bench.cable.fromHost(
        unitMessage(encodeFields(KINDS.outputs, OUTPUTS_LAYOUT, { ...fields, sequence })),
      );
      bench.advance(0.1);
    }
  };
  return { bench, frames, lease, last: () => frames.at(-1)!, spoilt: listener.spoilt };
};
const lettersOf = (line: string): number[] =>
  [...line.padEnd(TEXT_COLUMNS)].map((letter) => letter.charCodeAt(0));
const CLOSED_CHAMBER = { flags: 0, pump: 255, lamp: 0 };

test('nothing acts before the host has asked for anything', () => {
  const { bench } = benchOf();
  bench.advance(1);
  expect(bench.pins()).toEqual(SAFE);
  expect(bench.acting()).toEqual(SAFE);
});

test('what the host asks for reaches the pins, acts on the plant, and shows in the counts', () => {
  const { bench, lease, last } = benchOf();
  const before = last().pressure;
  // A person seals the injector and puts the hose on, by confirming the steps on the display.
  for (const step of ['3.6 ', '3.7 ']) {
    bench.cable.fromHost(unitMessage(encodeText(0, lettersOf(step))));
    bench.advance(0.5);
    bench.press('yes');
  }
  lease(CLOSED_CHAMBER, 2);
  expect(bench.pins()).toEqual({ ...SAFE, ventOpen: false, pumpRatio: 1 });
  expect(bench.acting()).toEqual(bench.pins());
  expect(last().pressure).toBeLessThan(before - 5);
  expect(bench.view().truth.pressurePa).toBeLessThan(100_000);
});

test('a silent host leaves the unit safe by the board’s own doing', () => {
  const { bench, lease } = benchOf();
  lease(CLOSED_CHAMBER, 1);
  bench.cable.setCut(true);
  bench.advance(0.6);
  expect(bench.pins()).toEqual(SAFE);
});

test('the counts in a frame are those of the sensors, within their noise', () => {
  const { bench, last } = benchOf();
  const { truth } = bench.view();
  const exact = sensorRatios({ ...HEALTHY_TRUTH, ...truth, supplyV: 12.6 }, PERFECT);
  bench.advance(0.1);
  for (const channel of ['glassTemperature', 'heatSinkTemperature', 'supplyVoltage'] as const) {
    expect(Math.abs(last()[channel] - 1023 * exact[channel])).toBeLessThanOrEqual(3);
  }
});

test('a channel that is held reads so, whatever the plant does', () => {
  const { bench, last } = benchOf();
  bench.holdCounts('pressure', 700);
  bench.advance(0.1);
  expect(last().pressure).toBe(700);
  bench.holdCounts('pressure', null);
  bench.advance(0.1);
  expect(last().pressure).toBeLessThan(400);
});

test.each(['hold', 'yes', 'no', 'more'] as const)('a press of %s is counted once', (button) => {
  const { bench, last } = benchOf();
  bench.press(button);
  bench.advance(0.3);
  expect(last().presses).toBe(1 << PRESS_SHIFT[button]);
});

test('two presses one after the other are two', () => {
  const { bench, last } = benchOf();
  bench.press('yes');
  bench.press('yes');
  bench.advance(0.6);
  expect(last().presses).toBe(2 << PRESS_SHIFT.yes);
});

test.each([
  ['ladder-open', 'open', 0],
  ['ladder-shorted', 'hold', 1 << PRESS_SHIFT.hold],
  ['ladder-wet', 'between', 0],
  ['yes-stuck', 'yes', 1 << PRESS_SHIFT.yes],
] as const)('with %s the firmware reads %s', (kind, ladder, presses) => {
  const { bench, last } = benchOf({ faults: [{ kind, from: { atS: 0 } }] });
  bench.advance(0.3);
  expect(LADDER_STEPS[last().ladder]).toBe(ladder);
  expect(last().presses).toBe(presses);
});

test('a NO whose resistor has drifted by a quarter is no press, and one of YES in its place is YES', () => {
  const pressed = (kind: 'no-drifts' | 'no-reads-yes') => {
    const { bench, last } = benchOf({ faults: [{ kind, from: { atS: 0 } }] });
    bench.press('no');
    bench.advance(0.3);
    return last().presses;
  };
  expect(pressed('no-drifts')).toBe(0);
  expect(pressed('no-reads-yes')).toBe(1 << PRESS_SHIFT.yes);
});

test('switches read as they are, and a pressed emergency stop cuts off what acts', () => {
  const { bench, lease, last } = benchOf();
  expect(last().switches).toBe(0);
  bench.toggleShield();
  lease(CLOSED_CHAMBER, 0.5);
  expect(last().switches).toBe(SWITCH_BITS.shieldClosed);
  bench.toggleEmergencyStop();
  bench.advance(0.002);
  expect(bench.acting()).toEqual(SAFE);
  bench.advance(0.1);
  expect(last().switches & SWITCH_BITS.emergencyStopPressed).not.toBe(0);
});

test('text from the host is drawn on the display', () => {
  const { bench } = benchOf();
  bench.cable.fromHost(unitMessage(encodeText(1, lettersOf('Fit the injector'))));
  bench.advance(0.5);
  expect(bench.display()[1]).toBe('Fit the injector    ');
});

test('the scripted person reads the display that the firmware has drawn, and presses', () => {
  const { bench, last } = benchOf({ technician: 'scripted' });
  bench.cable.fromHost(unitMessage(encodeText(0, lettersOf('2.1 Wipe the glass'))));
  bench.advance(8);
  expect(last().presses).toBe(1 << PRESS_SHIFT.yes);
});

test('a spoilt byte is seen as such and its frame is lost', () => {
  const { bench, spoilt } = benchOf();
  bench.advance(0.002);
  bench.cable.spoil('to-host', 30);
  bench.advance(0.2);
  expect(spoilt()).toBeGreaterThan(0);
});

test('the fault of a restarting board is a hung program that the watchdog ends', () => {
  const { bench } = benchOf({
    faults: [{ kind: 'board-restart', from: { atS: 0.5 }, lastsS: 0.04 }],
  });
  bench.advance(1);
  expect(bench.chip.resets()).toBe(1);
});

test('a power cycle empties the display and the lease', () => {
  const { bench, lease } = benchOf();
  lease(CLOSED_CHAMBER, 0.5);
  bench.powerCycle();
  bench.advance(0.001);
  expect(bench.pins()).toEqual(SAFE);
  expect(bench.display().join('').trim()).toBe('');
});

test('the vent flag means open, so that no flag at all is a closed vent', () => {
  const { bench, lease } = benchOf();
  lease({ flags: OUTPUT_FLAGS.ventOpen, pump: 0, lamp: 0 }, 0.2);
  expect(bench.pins()).toEqual(SAFE);
});

test('the same scenario and the same bytes give the same frames', () => {
  const run = () => {
    const { bench, frames, lease } = benchOf();
    lease(CLOSED_CHAMBER, 1);
    bench.press('no');
    bench.advance(0.5);
    return frames;
  };
  expect(run()).toEqual(run());
});

test('commands reach the bench, and say what they take when they are not understood', () => {
  const { bench, last } = benchOf();
  for (const line of ['press no', 'hold pressure 700', 'shield']) {
    expect(runCommand(bench, line)).toEqual({ ok: true });
  }
  bench.advance(0.3);
  expect(last()).toMatchObject({ pressure: 700, presses: 1 << PRESS_SHIFT.no, switches: 1 });
  for (const line of [
    'press',
    'hold pressure 1024',
    'mute both on',
    'inject to-host 1',
    'estop now',
    '',
  ]) {
    expect(runCommand(bench, line)).toMatchObject({ ok: false });
  }
});

test('over the in-process line bytes go both ways, and closing ends that for good', () => {
  const { bench } = benchOf();
  const line = createInProcessLine(bench);
  const heard: number[] = [];
  const closed: unknown[] = [];
  line.on('data', (bytes) => heard.push(...bytes));
  line.on('close', (why) => closed.push(why));
  const VERSION = 0xf9;
  line.write(Buffer.from([VERSION]));
  bench.advance(0.02);
  expect(heard).toContain(VERSION);
  line.pull();
  heard.length = 0;
  const refused: unknown[] = [];
  line.write(Buffer.from([VERSION]), (error) => refused.push(error));
  bench.advance(0.02);
  expect({ heard, isOpen: line.isOpen }).toEqual({ heard: [], isOpen: false });
  expect(refused[0]).toBeInstanceOf(Error);
  expect(closed).toHaveLength(1);
});

test('the virtual clock is the bench’s time, and sleeping is what makes it pass', async () => {
  const { bench } = benchOf();
  let flowed = 0;
  const clock = createVirtualClock(bench, async () => {
    flowed++;
  });
  const at: number[] = [];
  const fromS = clock.nowS();
  const cancel = clock.every(0.02, () => at.push(Math.round((clock.nowS() - fromS) * 1000)));
  await clock.sleep(0.05);
  expect(clock.nowS() - fromS).toBeCloseTo(0.05, 9);
  expect(flowed).toBeGreaterThanOrEqual(50);
  cancel();
  await clock.sleep(0.05);
  expect(at).toEqual([20, 40]);
});
