/** Runs the firmware's tests against an image in a folder, and says whether one of them failed. */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';

export interface Verdict {
  readonly outcome: 'killed' | 'survived';
  /** Test file and test that failed. */
  readonly by: { readonly file: string; readonly test: string } | null;
  /** Of each test file that ran to its end. */
  readonly seconds: Readonly<Record<string, number>>;
}

interface Report {
  readonly numFailedTests: number;
  readonly testResults: readonly {
    readonly message: string;
    readonly assertionResults: readonly {
      readonly ancestorTitles: readonly string[];
      readonly title: string;
      readonly status: string;
      readonly duration?: number | null;
    }[];
  }[];
}

/** Test files that run an image; the others speak of sources. */
export const testFiles = (root: string): string[] => {
  const folder = join(root, 'tests/hal/firmware');
  return readdirSync(folder).filter(
    (name) =>
      name.endsWith('.test.ts') &&
      readFileSync(join(folder, name), 'utf8').includes("from './bench.ts'"),
  );
};

/** Without a report in this time a program hangs, which is a failure too. */
const HANGS = { outcome: 'killed', by: { file: '', test: 'time limit' }, seconds: {} } as const;

export function judge(
  root: string,
  imageFolder: string,
  files: readonly string[],
  limitS: number,
): Verdict {
  const outputFile = join(imageFolder, 'report.json');
  rmSync(outputFile, { force: true });
  const { error, stderr } = spawnSync(
    process.execPath,
    [
      join(root, 'node_modules/vitest/vitest.mjs'),
      'run',
      '--config',
      'tests/mutants/firmware/vitest.config.ts',
      '--reporter=json',
      `--outputFile=${outputFile}`,
    ],
    {
      cwd: root,
      encoding: 'utf8',
      timeout: limitS * 1000,
      killSignal: 'SIGKILL',
      maxBuffer: 2 ** 26,
      env: { ...process.env, FIRMWARE_IMAGE: imageFolder, MUTANT_TESTS: files.join(',') },
    },
  );
  if ((error as NodeJS.ErrnoException | undefined)?.code === 'ETIMEDOUT') return HANGS;
  return verdictOf(readReport(outputFile, stderr));
}

function readReport(path: string, stderr: string): Report {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    throw new Error(`the tests did not run:\n${stderr}`);
  }
}

function verdictOf({ testResults }: Report): Verdict {
  const tests = testResults.flatMap((result) => result.assertionResults);
  const failed = tests.find(({ status }) => status === 'failed');
  if (failed !== undefined) {
    const [file = '', ...titles] = failed.ancestorTitles;
    return {
      outcome: 'killed',
      by: { file, test: [...titles, failed.title].join(' > ') },
      seconds: {},
    };
  }
  if (tests.length === 0 || testResults.some(({ message }) => message !== ''))
    throw new Error(`the tests did not run: ${testResults.map((r) => r.message).join('\n')}`);
  const seconds: Record<string, number> = {};
  for (const { ancestorTitles, duration } of tests) {
    const [file = ''] = ancestorTitles;
    seconds[file] = (seconds[file] ?? 0) + (duration ?? 0) / 1000;
  }
  return { outcome: 'survived', by: null, seconds };
}
