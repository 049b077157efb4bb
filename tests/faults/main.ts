/**
 * `npm run faults`: tries every row, pairs of rows and sound jobs on all cores, prints what was
 * found and what was not, writes the page, and ends with 1 where any invariant was broken. With
 * `--case ID` it runs one alone and prints its course.
 */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { isMainThread } from 'node:worker_threads';
import { type Campaign, campaignOf } from './campaign.ts';
import { NoSuchCase, pairCases, rowCases } from './cases.ts';
import { type Options, parseOptions, USAGE } from './options.ts';
import { pageOf } from './page.ts';
import { printReport } from './print.ts';
import { runOne, runOneEmulated } from './run-one.ts';
import { isBroken, troubleOf } from './summary.ts';
import { EMULATED, EMULATED_ROWS, emulatedCases } from './try-emulated.ts';
import { answersTo, answerTheMainThread, healthyId } from './workers.ts';

const USUAL_PAGE = fileURLToPath(new URL('PROVED.md', import.meta.url));

const idsOf = ({ rows, every, pairs, healthy, seed, board }: Options): readonly string[] =>
  board === 'emulated'
    ? emulatedCases().filter((_, n) => n % every === 0)
    : [
        ...rowCases(rows, seed, every),
        ...pairCases(pairs, seed),
        ...Array.from({ length: healthy }, (_, n) => healthyId(seed + n)),
      ];

async function campaign(options: Options, program: string): Promise<Campaign> {
  const ids = idsOf(options);
  const began = performance.now();
  let told = 0;
  const answers = await answersTo(program, ids, (done, come) => {
    for (const answer of come) {
      if (answer.kind === 'case' && isBroken(answer.result)) {
        console.error(`broken: ${answer.result.id}: ${troubleOf(answer.result)}`);
      }
    }
    const tenths = Math.floor((10 * done) / ids.length);
    if (tenths === told) return;
    told = tenths;
    console.error(`${10 * tenths} % of ${ids.length} jobs`);
  });
  const tookS = (performance.now() - began) / 1000;
  const rows = options.board === 'emulated' ? EMULATED_ROWS : options.rows;
  return campaignOf({ ...options, rows }, answers, tookS);
}

async function main(args: readonly string[], program: string): Promise<number> {
  const parsed = parseOptions(args);
  if (!parsed.ok) {
    console.error(`${parsed.problem}\n\n${USAGE}`);
    return 2;
  }
  const options = parsed.value;
  if (options.help) {
    console.log(USAGE);
    return 0;
  }
  const { case: id } = options;
  if (id !== null) {
    return id.startsWith(EMULATED) ? runOneEmulated(id) : runOne(id, options.journal);
  }
  const done = await campaign(options, program);
  printReport(done);
  const page = options.page ?? (options.whole ? USUAL_PAGE : null);
  if (page !== null) writeFileSync(page, pageOf(done));
  return done.failed ? 1 : 0;
}

if (isMainThread) {
  const [, , ...args] = process.argv;
  const { MENISCUS_FAULTS_PROGRAM: program = '' } = process.env;
  main(args, program).then(
    (code) => {
      process.exitCode = code;
    },
    (error: unknown) => {
      if (!(error instanceof NoSuchCase)) throw error;
      console.error(error.message);
      process.exitCode = 2;
    },
  );
} else answerTheMainThread();
