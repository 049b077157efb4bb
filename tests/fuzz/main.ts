/**
 * Builds the firmware's sources, unchanged, for this machine with libFuzzer and the sanitizers, and
 * feeds them bytes as they come from the line. `--seconds N` bounds the time, `--seed N` starts
 * another search, `--input FILE` runs one input again. What the firmware may do is in oracle.c,
 * where the search starts in seeds.ts. int has 32 bits here: overflow of 16 is not seen.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { SEEDS } from './seeds.ts';

/** What needs the chip itself and is tested in the emulator; chip.c stands in for it. */
const NOT_FOR_HOSTS = ['boot.c'];
const SANITIZE = 'address,undefined';
const FLAGS = ['-g', '-O1', '-std=gnu11', '-fshort-enums', '-fno-sanitize-recover=all'];
const WARN = ['-Wall', '-Wextra', '-Werror'];
const LONGEST_INPUT_BYTES = 512;
const FOUND_NOTHING = 0;

const OPTIONS = {
  seconds: { type: 'string', default: '60' },
  seed: { type: 'string', default: '1' },
  input: { type: 'string' },
} as const;

const NEEDS =
  'clang and its libFuzzer are needed: apt-get install clang libclang-rt-14-dev (14: the version of clang)';

function wholeNumber(option: string, value: string): string {
  if (!/^[1-9]\d{0,5}$/.test(value)) throw new Error(`--${option} ${value}: not a whole number`);
  return value;
}

function clang(folder: string, ...args: string[]): void {
  const { error, status, stderr } = spawnSync('clang', args, { cwd: folder, encoding: 'utf8' });
  if (error) throw new Error(NEEDS);
  // The compiler is there without the library: the linker names it.
  if (status !== 0)
    throw new Error(
      /(?:cannot find|unable to open|cannot open).*clang_rt/.test(stderr) ? NEEDS : stderr,
    );
}

const sourcesIn = (folder: string) =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.c') && !NOT_FOR_HOSTS.includes(name))
    .map((name) => join(folder, name));

function built(root: string, folder: string): string {
  const here = join(root, 'tests/fuzz');
  const firmware = join(root, 'hal/firmware');
  const include = [join(here, 'stub'), here, join(firmware, 'include')].map((path) => `-I${path}`);
  const flags = [...FLAGS, ...WARN, ...include];
  const sources = [...sourcesIn(firmware), join(firmware, 'selftest/twin.c')];
  const own = ['-include', join(here, 'stub/state.h'), '-Dmain=firmware_main'];
  clang(folder, '-c', ...flags, `-fsanitize=fuzzer-no-link,${SANITIZE}`, ...own, ...sources);
  const objects = readdirSync(folder).filter((name) => name.endsWith('.o'));
  const program = join(folder, 'parser-fuzz');
  const link = [`-fsanitize=fuzzer,${SANITIZE}`, '-Wl,--wrap=parser_byte', '-o', program];
  clang(folder, ...flags, ...link, ...sourcesIn(here), ...objects);
  return program;
}

function seeded(folder: string): string {
  const corpus = join(folder, 'corpus');
  mkdirSync(corpus);
  SEEDS.forEach((bytes, index) => {
    writeFileSync(join(corpus, `seed-${index}`), bytes);
  });
  return corpus;
}

/** Without a line for each new input; when something was found, all that is known of it. */
function report(output: string, foundNothing: boolean): string {
  const telling = /INITED|DONE|^accepted|^stat::(?:number|average|new)|^Done/;
  const noise = /^#\d+\s+(?!INITED|DONE)/;
  const wanted = (line: string) => (foundNothing ? telling.test(line) : !noise.test(line));
  return output.split('\n').filter(wanted).join('\n');
}

function tellWhatToRun(folder: string): void {
  const found = readdirSync(folder).filter((name) => /^(?:crash|timeout|oom|leak)-/.test(name));
  for (const name of found) {
    console.error(`Again: npm run fuzz:firmware -- --input ${join(folder, name)}`);
  }
}

export function run(root: string, args: readonly string[]): number {
  const { values } = parseArgs({ args: [...args], options: OPTIONS });
  const seconds = wholeNumber('seconds', values.seconds);
  const seed = wholeNumber('seed', values.seed);
  const folder = mkdtempSync(join(tmpdir(), 'meniscus-fuzz-'));
  let keep = false;
  try {
    const search = () => [
      `-max_total_time=${seconds}`,
      `-seed=${seed}`,
      `-max_len=${LONGEST_INPUT_BYTES}`,
      `-artifact_prefix=${folder}/`,
      '-timeout=10',
      '-print_final_stats=1',
      seeded(folder),
    ];
    const program = built(root, folder);
    const what = values.input === undefined ? search() : [values.input];
    const { status, stderr } = spawnSync(program, what, { encoding: 'utf8', maxBuffer: 2 ** 28 });
    console.log(report(stderr, status === FOUND_NOTHING));
    keep = status !== FOUND_NOTHING && values.input === undefined;
    if (keep) tellWhatToRun(folder);
    if (status !== FOUND_NOTHING) return 1;
    // A search that no message came through has shown nothing.
    if (values.input !== undefined || /accepted outputs [1-9]\d*, limits [1-9]/.test(stderr))
      return 0;
    console.error('No message was accepted in the whole search: it has shown nothing.');
    return 1;
  } finally {
    if (!keep) rmSync(folder, { recursive: true, force: true });
  }
}
