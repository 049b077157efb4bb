/**
 * The program in this process, in a folder of its own: a start of its own costs more than most of
 * its commands, and proves the same each time. What needs one (signals, limits, preloaded modules,
 * what Node itself prints) uses `process.ts`.
 */
import { Console } from 'node:console';
import { PassThrough } from 'node:stream';
import { type Ended, PROGRAM } from './process.ts';

let starts = 0;

/** Puts a stream that is no terminal in the place of the process's own. */
function taken(name: 'stdout' | 'stderr') {
  const own = Object.getOwnPropertyDescriptor(process, name);
  if (own === undefined) throw new Error(`no ${name}`);
  const stream = new PassThrough();
  const parts: Buffer[] = [];
  stream.on('data', (part: Buffer) => parts.push(part));
  Object.defineProperty(process, name, { ...own, get: () => stream });
  return {
    stream,
    text: () => Buffer.concat(parts).toString(),
    giveBack: () => Object.defineProperty(process, name, own),
  };
}

export async function runHere(args: readonly string[], folder: string): Promise<Ended> {
  const { argv } = process;
  const cwd = process.cwd();
  const [out, err] = [taken('stdout'), taken('stderr')];
  process.argv = [process.execPath, PROGRAM, ...args];
  const { console: own } = globalThis;
  globalThis.console = new Console(out.stream, err.stream);
  process.chdir(folder);
  try {
    // Under a name of its own, so that it runs again; what it imports is kept.
    await import(`../../src/cli/main.ts?start=${++starts}`);
    const { exitCode } = process;
    return {
      code: exitCode === undefined ? 0 : Number(exitCode),
      out: out.text(),
      err: err.text(),
    };
  } finally {
    process.chdir(cwd);
    globalThis.console = own;
    process.exitCode = undefined;
    process.argv = argv;
    out.giveBack();
    err.giveBack();
  }
}
