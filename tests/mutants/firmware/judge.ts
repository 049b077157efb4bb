/** Runs the firmware's tests against images in folders, and says for each whether a test failed. */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface Verdict {
  readonly outcome: 'killed' | 'survived';
  /** Test file and test that failed. */
  readonly by: { readonly file: string; readonly test: string } | null;
  /** Of each test file, where all of them passed. */
  readonly seconds: Readonly<Record<string, number>>;
}

interface TestResult {
  /** Image folder, test file, and what the file itself nests. */
  readonly ancestorTitles: readonly string[];
  readonly title: string;
  readonly status: string;
  readonly duration?: number | null;
}

interface Report {
  readonly testResults: readonly { readonly assertionResults: readonly TestResult[] }[];
}

/** Many times what a healthy image takes on a busy machine. */
const LIMIT_S = 120;
const LIMIT_MORE_S = 20;

/** Test files that run an image; the others speak of sources. */
export const testFiles = (root: string): string[] => {
  const folder = join(root, 'tests/hal/firmware');
  return readdirSync(folder, { encoding: 'utf8', recursive: true }).filter(
    (name) =>
      name.endsWith('.test.ts') &&
      /\/(?:bench|noise|kept-twice)\.ts'/.test(readFileSync(join(folder, name), 'utf8')),
  );
};

/** An image that keeps a test from ever ending has failed it. */
const HANGS: Verdict = { outcome: 'killed', by: { file: '', test: 'time limit' }, seconds: {} };

/** One verdict for each image folder. */
export function judge(
  root: string,
  images: readonly string[],
  files: readonly string[],
): readonly Verdict[] {
  if (images.length === 0) return [];
  const tests = run(root, images, files);
  if (tests !== null) return images.map((image) => verdictOf(tests, image));
  // One of several hangs: only on its own does it show which.
  if (images.length > 1) return images.flatMap((image) => judge(root, [image], files));
  return [HANGS];
}

/** Every test of a run; null when it did not end in its time. */
function run(
  root: string,
  images: readonly string[],
  files: readonly string[],
): readonly TestResult[] | null {
  const outputFile = join(tmpdir(), `mutants-report.${process.pid}.json`);
  const vitest = join(root, 'node_modules/vitest/vitest.mjs');
  const config = 'tests/mutants/firmware/vitest.config.ts';
  const { error, stderr } = spawnSync(
    process.execPath,
    [vitest, 'run', '--config', config, '--reporter=json', `--outputFile=${outputFile}`],
    {
      cwd: root,
      encoding: 'utf8',
      timeout: (LIMIT_S + LIMIT_MORE_S * images.length) * 1000,
      killSignal: 'SIGKILL',
      maxBuffer: 2 ** 26,
      env: { ...process.env, MUTANT_IMAGES: images.join(','), MUTANT_TESTS: files.join(',') },
    },
  );
  if ((error as NodeJS.ErrnoException | undefined)?.code === 'ETIMEDOUT') return null;
  try {
    const report: Report = JSON.parse(readFileSync(outputFile, 'utf8'));
    return report.testResults.flatMap((result) => result.assertionResults);
  } catch {
    throw new Error(`the tests did not run:\n${stderr}`);
  } finally {
    rmSync(outputFile, { force: true });
  }
}

function verdictOf(all: readonly TestResult[], image: string): Verdict {
  const tests = all.filter(({ ancestorTitles }) => ancestorTitles[0] === image);
  const failed = tests.find(({ status }) => status === 'failed');
  if (failed !== undefined) {
    const [, file = '', ...titles] = failed.ancestorTitles;
    const by = { file, test: [...titles, failed.title].join(' > ') };
    return { outcome: 'killed', by, seconds: {} };
  }
  if (tests.length === 0 || tests.some(({ status }) => status !== 'passed'))
    throw new Error(`the tests of ${image} did not run to their end`);
  const seconds: Record<string, number> = {};
  for (const { ancestorTitles, duration } of tests) {
    const [, file = ''] = ancestorTitles;
    seconds[file] = (seconds[file] ?? 0) + (duration ?? 0) / 1000;
  }
  return { outcome: 'survived', by: null, seconds };
}
