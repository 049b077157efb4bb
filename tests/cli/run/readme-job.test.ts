/** The whole job of the README, with its own commands; only the person at the keys is missing. */
import { readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, expect, test } from 'vitest';
import intake from '../../../src/app/defaults/intake.json' with { type: 'json' };
import { runHere } from '../here.ts';
import { type Ended, scratchFolder, writeJson } from '../process.ts';

const root = (name: string): string => fileURLToPath(new URL(`../../../${name}`, import.meta.url));
const folder = scratchFolder();

/** Words of each command of the chapter, quotes taken off. */
function commandsOf(chapter: string): readonly (readonly string[])[] {
  const text = readFileSync(root('README.md'), 'utf8').split(`## ${chapter}\n`)[1] ?? '';
  const block = text.split('## ')[0]?.matchAll(/^ {4}npx meniscus (.*)$/gm) ?? [];
  return [...block].map(([, words = '']) =>
    [...words.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? ''),
  );
}

let ended: readonly Ended[];
beforeAll(async () => {
  symlinkSync(root('src'), join(folder, 'src'));
  const answers = writeJson(folder, 'answers.json', { ...intake, reference: 'job-7' });
  const instead: Readonly<Record<string, readonly string[]>> = {
    assess: ['assess', '--intake', answers],
    '--manual': ['--speed', 'max'],
  };
  const done: Ended[] = [];
  for (const words of commandsOf('Five things a user does')) {
    done.push(
      await runHere(
        words.flatMap((word) => instead[word] ?? [word]),
        folder,
      ),
    );
  }
  ended = done;
});

test('each of its commands does what it says, on the day on which it is read', () => {
  expect(ended.map(({ code }) => code)).toEqual([0, 0, 0]);
});

test('the demo bottle suits, and is called a demo', () => {
  const [assessed] = ended;
  expect(assessed?.out).toContain('Advice: the repair can begin.');
  expect(assessed?.out).toContain('use this one');
  expect(assessed?.out).toContain('an invented demo bottle, for the simulated board only');
  expect(assessed?.out).toContain(`Written: ${join('job-7', 'job.json')}`);
});

test('the record has the name that the README gives it', () => {
  const [, run, shown] = ended;
  expect(run?.out).toContain('Job completed, break clear');
  expect(run?.out).toContain(`Certificate: ${join('records', 'job-7', 'certificate.pdf')}`);
  expect(shown?.out).toContain('demo resin, demo-lot-1');
  expect(shown?.out).toContain('AB 12 CDE');
});
