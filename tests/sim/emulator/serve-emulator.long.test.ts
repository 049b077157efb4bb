import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { SerialPort } from 'serialport';
import { afterEach, describe, expect, test } from 'vitest';
import {
  BAUD,
  decodeFields,
  encodeFields,
  FRAME_LAYOUT,
  KINDS,
  OUTPUTS_LAYOUT,
} from '../../../hal/firmata/protocol.ts';
import { loadImage } from '../../../sim/emulator/image.ts';
import {
  createFrameWatch,
  type ServeOptions,
  serveEmulator,
} from '../../../sim/emulator/serve-emulator.ts';
import { IMAGE_PATH, type RunningEmulator, type Said, startEmulator } from './emulator-launcher.ts';
import { scenarioOf } from './scenarios.ts';
import { createUnitListener, unitMessage } from './unit-listener.ts';

const hasSocat = (() => {
  try {
    execFileSync('socat', ['-V'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
})();
if (!hasSocat) console.log('Skipped: the emulator process needs socat, which is not installed.');

const running: RunningEmulator[] = [];
const ports: SerialPort[] = [];
afterEach(async () => {
  for (const port of ports.splice(0)) await closed(port);
  for (const emulator of running.splice(0)) await emulator.stop();
});

/** Nobody answers any more, and what is under way goes out first: a write that is cut off fails. */
const closed = async (port: SerialPort): Promise<void> => {
  port.removeAllListeners('data');
  await new Promise((resolve) => port.drain(resolve));
  await new Promise((resolve) => port.close(resolve));
};

const start = async (pace: Parameters<typeof startEmulator>[0]['pace']) => {
  const emulator = await startEmulator({ scenario: scenarioOf(), pace });
  running.push(emulator);
  return emulator;
};

const openPort = (path: string): Promise<SerialPort> => {
  const port = new SerialPort({ path, baudRate: BAUD, autoOpen: false });
  ports.push(port);
  return new Promise((resolve, reject) => {
    port.open((error) => (error ? reject(error) : resolve(port)));
  });
};

/** Firmata's own message; the board sends frames from then on. */
const SAMPLING_INTERVAL_20_MS = Buffer.from([0xf0, 0x7a, 20, 0, 0xf7]);
const PUMP = { flags: 0, pump: 77, lamp: 0 };
let sequence = 0;
const outputs = () => {
  sequence += 1;
  return unitMessage(encodeFields(KINDS.outputs, OUTPUTS_LAYOUT, { ...PUMP, sequence }));
};

describe.skipIf(!hasSocat)('an emulator in a process of its own', () => {
  test('in lock-step, each frame is answered before board time goes on', async () => {
    const emulator = await start({ lockStepPatienceMs: 2000 });
    const port = await openPort(emulator.link);
    const frames: number[] = [];
    const asked = new Promise<void>((resolve) => {
      const listener = createUnitListener((kind, body) => {
        const frame = kind === KINDS.frame ? decodeFields(FRAME_LAYOUT, body) : null;
        if (frame === null) return;
        frames.push(frame.timeMs);
        port.write(outputs());
        if (frames.length === 100) resolve();
      });
      port.on('data', listener.hear);
    });
    // The board is deaf while it tests its memory at the start.
    const asking = setInterval(() => {
      if (frames.length === 0) port.write(SAMPLING_INTERVAL_20_MS);
    }, 50);
    await asked;
    clearInterval(asking);
    const gaps = frames.slice(1).map((timeMs, i) => timeMs - (frames[i] ?? 0));
    expect(new Set(gaps)).toEqual(new Set([20]));
    emulator.command('report');
    expect(await emulator.next('state')).toMatchObject({ acting: { ventOpen: false } });
  });

  test('commands act on the bench, and what is not understood is told', async () => {
    const emulator = await start({ timesReal: 1 });
    const answers = async (line: string) => {
      const answer = emulator.next('command');
      emulator.command(line);
      return answer;
    };
    expect(await answers('estop')).toEqual({ kind: 'command', command: 'estop', ok: true });
    expect(await answers('press maybe')).toMatchObject({
      ok: false,
      accepted: 'press hold|yes|no|more',
    });
    expect(await answers('dance')).toMatchObject({ ok: false });
  });

  test('the last line says what was really done to the break', async () => {
    const emulator = await start({ timesReal: 1 });
    running.length = 0;
    expect(await emulator.stop()).toMatchObject({ kind: 'end', doseJPerM2: 0, filledRatio: 0 });
  });
});

/** The emulator in this process, behind a wall clock that moves only while somebody waits. */
const servedHere = (pace: ServeOptions['pace'], asksForFrames: boolean) => {
  let wallMs = 0;
  let pauses = 0;
  let hear = (_bytes: Uint8Array): void => {};
  let order = (_line: string): void => {};
  const said: Said[] = [];
  const served = serveEmulator({
    image: loadImage(readFileSync(IMAGE_PATH, 'utf8')),
    scenario: scenarioOf(),
    pace,
    line: {
      send: () => {},
      onBytes: (take) => {
        hear = take;
      },
    },
    onCommand: (take) => {
      order = take;
    },
    report: (line) => {
      said.push(JSON.parse(line));
      if (said.at(-1)?.kind === 'state') order('stop');
    },
    wall: {
      nowMs: () => wallMs,
      pause: async (ms) => {
        // Looking at the clock again takes a moment, too.
        wallMs += Math.max(ms, 0.01);
        // A tenth of a second on, the board has started and hears what it is asked.
        if (++pauses === 100 && asksForFrames) hear(SAMPLING_INTERVAL_20_MS);
      },
    },
  });
  return { run: served.run, said, wallMs: () => wallMs };
};

test('at twice real time a second of board time takes half a second', async () => {
  const { run, wallMs } = servedHere({ timesReal: 2 }, false);
  await run();
  expect(wallMs()).toBeGreaterThan(490);
  expect(wallMs()).toBeLessThan(510);
});

test('in lock-step with a dead host, board time goes on after its patience with each frame', async () => {
  const { run, said, wallMs } = servedHere({ lockStepPatienceMs: 100 }, true);
  await run();
  expect(said.map(({ kind }) => kind)).toEqual(['ready', 'state', 'end']);
  // A frame each 20 ms of the 900 ms that are left.
  expect(wallMs()).toBeGreaterThan(43 * 100);
  expect(wallMs()).toBeLessThan(47 * 100);
});

test('frames are told from other messages of the unit, and from Firmata’s', () => {
  const watch = createFrameWatch();
  watch.see([0xf0, 0x79, 1, 0, 0xf7]);
  watch.see(unitMessage([KINDS.refusal, 1, 2]));
  expect(watch.takeFrame()).toBe(false);
  const frame = unitMessage([KINDS.frame, 1, 2]);
  watch.see(frame.subarray(0, 4));
  expect(watch.takeFrame()).toBe(false);
  watch.see(frame.subarray(4));
  expect(watch.takeFrame()).toBe(true);
  expect(watch.takeFrame()).toBe(false);
});
