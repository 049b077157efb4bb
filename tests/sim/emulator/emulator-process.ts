/**
 * The emulator as a process of its own: gives `serveEmulator` a pseudo-terminal, this process's
 * streams and the wall clock. Arguments are one piece of JSON; commands come on stdin, a line each.
 */
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { loadImage } from '../../../sim/emulator/image.ts';
import { type ServeOptions, serveEmulator } from '../../../sim/emulator/serve-emulator.ts';

export interface ProcessArguments {
  /** Where the host's end of the line appears. */
  readonly link: string;
  readonly imagePath: string;
  readonly scenario: ServeOptions['scenario'];
  readonly pace: ServeOptions['pace'];
}

const { link, imagePath, scenario, pace }: ProcessArguments = JSON.parse(process.argv[2] ?? '{}');
const socat = spawn('socat', [`pty,raw,echo=0,link=${link}`, 'STDIO'], {
  stdio: ['pipe', 'pipe', 'inherit'],
});
const commands = createInterface({ input: process.stdin });
const served = serveEmulator({
  image: loadImage(readFileSync(imagePath, 'utf8')),
  scenario,
  pace,
  line: {
    send: (bytes) => socat.stdin.write(bytes),
    onBytes: (take) => socat.stdout.on('data', take),
  },
  onCommand: (take) => commands.on('line', take),
  report: (line) => process.stdout.write(`${line}\n`),
  wall: {
    nowMs: () => performance.now(),
    pause: (ms) =>
      new Promise((resolve) => (ms < 1 ? setImmediate(resolve) : setTimeout(resolve, ms))),
  },
});
// Whoever started this is gone: nobody could stop it any more.
commands.on('close', served.stop);
process.on('SIGTERM', served.stop);
await served.run();
commands.close();
socat.kill();
