/**
 * `npm run mutants:firmware`: puts single changes into the firmware's sources, builds each and runs
 * the firmware's tests against that image. Prints how many were killed and each that survived.
 * `--sample N` takes N of them, chosen by `--seed`; `--only FILE` those of one source; `--fresh`
 * forgets earlier results.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { type Change, changed, changesOf, describeChange } from './changes.ts';
import { compilerVersion, openWorkshop, type Workshop } from './image-under-test.ts';
import { judge, testFiles } from './judge.ts';
import { accepted, type Mutant, summary } from './report.ts';
import { digest, keyOf, openResults, order, type Result } from './results.ts';

/** A healthy run takes a tenth of this. */
const LIMIT_S = 120;

const OPTIONS = {
  sample: { type: 'string' },
  seed: { type: 'string', default: '1' },
  only: { type: 'string' },
  fresh: { type: 'boolean', default: false },
} as const;

function chosen(workshop: Workshop, options: { sample?: string; seed: string; only?: string }) {
  const { sample, seed, only } = options;
  if (only !== undefined && !workshop.sources.has(only))
    throw new Error(`--only ${only}: no such source; there are ${[...workshop.sources.keys()]}`);
  if (sample !== undefined && !(Number(sample) >= 1))
    throw new Error(`--sample ${sample}: not a number of changes`);
  const all = [...workshop.sources]
    .filter(([file]) => only === undefined || file === only)
    .flatMap(([file, source]) => changesOf(source).map((change) => ({ file, source, change })));
  if (sample === undefined) return all;
  // Chosen by what they say, so that a larger sample holds the smaller one.
  const rank = ({ file, source, change }: { file: string; source: string; change: Change }) =>
    digest(seed, file, source.split('\n')[change.line - 1] ?? '', String(change.at), change.to);
  const ranked = all.map((each) => [rank(each), each] as const);
  return ranked
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .slice(0, Number(sample))
    .map(([, each]) => each);
}

const textsIn = (folder: string) =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.ts'))
    .map((name) => readFileSync(join(folder, name), 'utf8'));

export function run(root: string, args: readonly string[]): number {
  const { values } = parseArgs({ args: [...args], options: OPTIONS });
  const compiler = compilerVersion();
  if (compiler === null) {
    console.error('avr-gcc is not installed: without it no changed firmware can be built.');
    return 2;
  }
  const workshop = openWorkshop(join(root, 'hal/firmware'));
  try {
    return work(root, workshop, values, compiler);
  } finally {
    workshop.close();
  }
}

function work(
  root: string,
  workshop: Workshop,
  values: { sample?: string; seed: string; only?: string; fresh: boolean },
  compiler: string,
): number {
  const cache = join(root, 'node_modules/.cache/meniscus-mutants/firmware.json');
  const files = testFiles(root);
  const unchanged = workshop.build();
  const healthy = judge(root, workshop.imageFolder, files, LIMIT_S);
  if (unchanged === null || healthy.outcome !== 'survived') {
    console.error('The firmware as it stands does not pass its tests:', healthy.by);
    return 1;
  }
  const rest = `${compiler}${workshop.rest}`;
  const seenWith = digest(
    rest,
    ...workshop.sources.values(),
    ...textsIn(join(root, 'tests/hal/firmware')),
    ...textsIn(join(root, 'sim/emulator')),
  );
  const results = openResults(cache, seenWith, values.fresh);

  const resultOf = (file: string, source: string, change: Change): Result => {
    const key = keyOf(rest, file, source, change);
    const known = results.of(key);
    if (known !== null) return known;
    const image = workshop.build({ file, text: changed(source, change) });
    const found = (): Pick<Result, 'outcome' | 'by'> => {
      if (image === null) return { outcome: 'does not build', by: null };
      if (image === unchanged) return { outcome: 'same image', by: null };
      const ordered = order(cache, file, files, healthy.seconds);
      return judge(root, workshop.imageFolder, ordered, LIMIT_S);
    };
    const { outcome, by } = found();
    const result = { outcome, by, seenWith };
    results.keep(key, result);
    return result;
  };

  const mutants: Mutant[] = [];
  const changes = chosen(workshop, values);
  for (const [i, { file, source, change }] of changes.entries()) {
    const { outcome, by } = resultOf(file, source, change);
    const code = (source.split('\n')[change.line - 1] ?? '').trim();
    const mutant = { file, line: change.line, code, change: describeChange(change), outcome };
    mutants.push(mutant);
    const why = by === null ? (accepted(mutant)?.reason ?? '') : `${by.file} ${by.test}`;
    console.log(
      `${i + 1}/${changes.length} ${outcome}: ${file}:${change.line} ${mutant.change} ${why}`,
    );
  }
  console.log(summary(mutants));
  return 0;
}
