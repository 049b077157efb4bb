/** The commands that talk to a board, as a person runs them, on the emulated board. */
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { runProgram, scratchFolder } from '../cli/process.ts';
import { scenarioWith } from '../sim/board/lock-step.ts';
import { startEmulator } from '../sim/emulator/emulator-launcher.ts';
import { whyNoPty } from './pty-board.ts';

const PROGRAM = fileURLToPath(new URL('../../src/cli/meniscus.js', import.meta.url));
const skip = whyNoPty();
if (skip !== null) console.warn(`commands over the pseudo-terminal ${skip}`);

/** Types keys when the program has said what they answer; a step that fails ends the walk at once. */
function typed(args: readonly string[], cwd: string, keys: readonly (readonly [string, string])[]) {
  return new Promise<{ code: number | null; out: string }>((resolve) => {
    const child = spawn(process.execPath, [PROGRAM, ...args], { cwd });
    let out = '';
    let next = 0;
    const take = (data: Buffer): void => {
      out += data.toString();
      // One piece of output may hold more than one prompt.
      for (let due = keys[next]; due !== undefined && out.includes(due[0]); due = keys[next]) {
        next++;
        child.stdin.write(due[1]);
      }
      if (out.includes('FAILED.')) child.stdin.write('q');
    };
    child.stdout.on('data', take);
    child.stderr.on('data', take);
    child.on('close', (code) => resolve({ code, out }));
  });
}

describe.skipIf(skip !== null)('commands over the pseudo-terminal', () => {
  test('bench walks through steps on the board, and a walk whose steps pass ends with 0', async () => {
    const emulator = await startEmulator({ scenario: scenarioWith(), pace: { timesReal: 1 } });
    const { code, out } = await typed(
      ['bench', '--port', emulator.link, '--step', 'supply', '--step', 'vent-clicks'],
      scratchFolder(),
      [
        ['1/2  Supply', '\r'],
        ['2/2  Vent', '\r'],
        ['(y/n)', 'y'],
      ],
    );
    await emulator.stop();
    expect(out).toContain('2 of 2 steps passed.');
    expect(code).toBe(0);
  });

  test('bench --stock shows the wires and says why it drives nothing', async () => {
    const emulator = await startEmulator({ scenario: scenarioWith(), pace: { timesReal: 1 } });
    const { code, out } = await typed(
      ['bench', '--port', emulator.link, '--stock'],
      scratchFolder(),
      [['emergencyStop closed', 'q']],
    );
    await emulator.stop();
    expect(out).toContain('has no protection');
    expect(out).toMatch(/pressure \d{3}/);
    expect(code).toBe(0);
  });

  test('a job ended from outside leaves the board safe and its record closed', async () => {
    const emulator = await startEmulator({ scenario: scenarioWith(), pace: { timesReal: 1 } });
    let killed = false;
    const ended = await runProgram(
      ['run', '--port', emulator.link],
      scratchFolder(),
      (out, kill) => {
        if (!out.includes('2.1 job-sheet') || killed) return;
        killed = true;
        kill('SIGTERM');
      },
    );
    const { pins } = (await emulator.stop()) as unknown as { pins: { ventOpen: boolean } };
    expect(ended.code).toBe(130);
    expect(ended.out).toContain('Report: ');
    expect(pins.ventOpen).toBe(true);
  });
});

describe('a board that cannot be used', () => {
  test.each([
    ['a port that is not there', '/dev/none-such', 'There is no such port.'],
    ['a file that is no port', '/etc/passwd', 'This is not a serial port.'],
  ])('%s is named, with what to do, and nothing is started', async (_, port, words) => {
    const { code, err } = await runProgram(['run', '--port', port], scratchFolder());
    expect(err).toContain(words);
    expect(err).toContain('Nothing was started.');
    expect(code).toBe(2);
  });

  test('options of the simulated board are refused on a real one', async () => {
    const { code, err } = await runProgram(
      ['run', '--port', 'auto', '--seed', '3'],
      scratchFolder(),
    );
    expect(err).toContain("cannot be used with option '--seed");
    expect(code).toBe(2);
  });
});
