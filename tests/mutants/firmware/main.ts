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
import { digest, keyOf, type Outcome, openResults, order, type Result } from './results.ts';
import { codeOfLine } from './tokens.ts';

/** Images judged in one run of the tests. */
const BATCH = 16;

const OPTIONS = {
  sample: { type: 'string' },
  seed: { type: 'string', default: '1' },
  only: { type: 'string' },
  fresh: { type: 'boolean', default: false },
} as const;

interface Values {
  readonly sample?: string;
  readonly seed: string;
  readonly only?: string;
  readonly fresh: boolean;
}

interface Picked {
  readonly file: string;
  readonly source: string;
  readonly change: Change;
}

function chosen(workshop: Workshop, options: Values): Picked[] {
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
  const rank = ({ file, source, change }: Picked) =>
    digest(seed, file, source.split('\n')[change.line - 1] ?? '', String(change.at), change.to);
  const ranked = all.map((each) => [rank(each), each] as const);
  return ranked
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .slice(0, Number(sample))
    .map(([, each]) => each)
    .toSorted((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : a.change.at - b.change.at));
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

/** Changes of one source, to be judged in one run. */
function batches(picked: readonly Picked[]): Picked[][] {
  const all: Picked[][] = [];
  for (const each of picked) {
    const last = all.at(-1);
    if (last === undefined || last.length === BATCH || last[0]?.file !== each.file)
      all.push([each]);
    else last.push(each);
  }
  return all;
}

function work(root: string, workshop: Workshop, values: Values, compiler: string): number {
  const cache = join(root, 'node_modules/.cache/meniscus-mutants/firmware.json');
  const files = testFiles(root);
  const unchanged = workshop.build();
  const [healthy] = unchanged === null ? [] : judge(root, [unchanged.folder], files);
  if (unchanged === null || healthy?.outcome !== 'survived') {
    console.error('The firmware as it stands does not pass its tests:', healthy?.by);
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
  const resultsOf = (batch: readonly Picked[]): readonly Result[] => {
    const keys = batch.map(({ file, source, change }) => keyOf(rest, file, source, change));
    const built = batch.map(({ file, source, change }, i) =>
      results.of(keys[i]!) === null
        ? workshop.build({ file, text: changed(source, change) })
        : null,
    );
    const folders = built.flatMap((image) =>
      image === null || image.hexText === unchanged.hexText ? [] : [image.folder],
    );
    const file = batch[0]?.file ?? '';
    const verdicts = judge(root, folders, order(results.all(), file, files, healthy.seconds));
    return batch.map((_, i): Result => {
      const known = results.of(keys[i]!);
      if (known !== null) return known;
      const image = built[i] ?? null;
      const verdict = verdicts[folders.indexOf(image?.folder ?? '')];
      const outcome: Outcome =
        image === null ? 'does not build' : (verdict?.outcome ?? 'same image');
      const result: Result = { outcome, by: verdict?.by ?? null, seenWith };
      results.keep(keys[i]!, result);
      return result;
    });
  };

  const mutants: Mutant[] = [];
  for (const batch of batches(chosen(workshop, values))) {
    for (const [i, { outcome, by }] of resultsOf(batch).entries()) {
      const { file, source, change } = batch[i]!;
      const code = codeOfLine(source, change.line);
      const mutant = { file, line: change.line, code, change: describeChange(change), outcome };
      mutants.push(mutant);
      const why = by === null ? (accepted(mutant)?.reason ?? '') : `${by.file} ${by.test}`;
      console.log(`${mutants.length} ${outcome}: ${file}:${change.line} ${mutant.change} ${why}`);
    }
  }
  console.log(summary(mutants));
  return 0;
}
