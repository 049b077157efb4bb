import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { Command } from 'commander';
import { beforeAll, expect, test, vi } from 'vitest';
import manifest from '../package.json' with { type: 'json' };
import { callsIn, headingsOf, isThere, linksIn, PAGES, pathsIn, root, scriptsIn } from './pages.ts';

test('the lock file names no place from which packages were fetched', () => {
  expect(readFileSync(`${root}package-lock.json`, 'utf8')).not.toContain('"resolved"');
});

/** Of what is kept: jobs and assessments that somebody tried out may lie beside it. */
const isRepository = existsSync(`${root}.git`);
test.skipIf(!isRepository)('the top level holds what it is meant to hold and nothing else', () => {
  const meant = [
    'README.md',
    'DEVELOPERS.md',
    'package.json',
    'package-lock.json',
    'tsconfig.json',
    'biome.json',
    'vitest.config.ts',
    'src',
    'hal',
    'sim',
    'tests',
    'wiring',
  ];
  const kept = execFileSync('git', ['ls-tree', '--name-only', 'HEAD'], { cwd: root }).toString();
  const found = kept.split('\n').filter((name) => name !== '' && !name.startsWith('.'));
  expect(found.toSorted()).toEqual(meant.toSorted());
});

test.each(PAGES)('every file that $path names in code exists', (page) => {
  expect(pathsIn(page).filter((path) => !isThere(page, path))).toEqual([]);
});

test('the pages are read: one that names a lost file, link or option would be found', () => {
  expect(PAGES.map(({ path }) => path)).toEqual(
    expect.arrayContaining(['README.md', 'DEVELOPERS.md', 'src/store/README.md', 'hal/README.md']),
  );
  const named = (path: string): readonly string[] =>
    PAGES.filter((page) => page.path === path).flatMap(pathsIn);
  expect(named('DEVELOPERS.md')).toContain('src/safety/guard.ts');
  expect(named('src/procedure/README.md')).toContain('repair/seal/seal-finding.ts');
  const store = { folder: 'src/store/' };
  expect(isThere(store, 'schema.ts') && isThere(store, 'chain/')).toBe(true);
  expect(isThere(store, 'src/safety/alarms-*.ts')).toBe(true);
  expect(isThere(store, 'guard.ts') || isThere(store, 'src/cli/defaults/')).toBe(false);
});

test.each(PAGES)('every relative link of $path leads to a file and a heading', (page) => {
  const lost = linksIn(page).filter(
    ({ path, heading }) =>
      !existsSync(root + path) || (heading !== null && !headingsOf(path).includes(heading)),
  );
  expect(lost).toEqual([]);
});

test('every script that a page runs is in package.json', () => {
  const lost = PAGES.flatMap(scriptsIn).filter((name) => !(name in manifest.scripts));
  expect(lost).toEqual([]);
  expect(PAGES.flatMap(scriptsIn)).toContain('evidence:solve');
});

/** The program as `src/cli/main.ts` puts it together, caught before it reads its arguments. */
async function builtProgram(): Promise<Command> {
  const built: Command[] = [];
  const caught = vi.spyOn(Command.prototype, 'parseAsync');
  caught.mockImplementation(async function (this: Command) {
    built.push(this);
    return this;
  });
  const { argv } = process;
  process.argv = argv.slice(0, 2);
  await import('../src/cli/main.ts');
  process.argv = argv;
  caught.mockRestore();
  const [program] = built;
  if (program === undefined) throw new Error('the program reads no arguments');
  return program;
}

let program: Command;
beforeAll(async () => {
  program = await builtProgram();
});

/** What the program does not know of a call: a command or an option; null where it knows all. */
function unknownIn(call: readonly string[]): string | null {
  let command = program;
  const asked = [program];
  for (const word of call) {
    if (command.commands.length === 0 || word.startsWith('-')) break;
    const named = command.commands.find((each) => each.name() === word);
    if (named === undefined) return word;
    command = named;
    asked.push(named);
  }
  // `care` without a command, or with options alone, is `care state`.
  asked.push(...command.commands.filter((each) => each.name() === 'state'));
  const known = ['--help', ...asked.flatMap(({ options }) => options.map(({ long }) => long))];
  const given = call.flatMap((word) => /^--[a-z][a-z-]*/.exec(word)?.[0] ?? []);
  return given.find((option) => !known.includes(option)) ?? null;
}

test('the program has every command and every option with which a page calls it', () => {
  const names = program.commands.map((command) => command.name());
  const calls = PAGES.flatMap((page) =>
    callsIn(page, names).map((call) => ({ page: page.path, call })),
  );
  const called = calls.map(({ call }) => call.slice(0, 2).join(' '));
  expect(called).toEqual(expect.arrayContaining(['run --manual', 'care log', 'records amend']));
  const lost = calls.flatMap(({ page, call }) => {
    const unknown = unknownIn(call);
    return unknown === null ? [] : [`${page}: meniscus ${call.join(' ')}: ${unknown}`];
  });
  expect(lost).toEqual([]);
  expect(unknownIn(['records', 'shwo'])).toBe('shwo');
  expect(unknownIn(['run', '--nosuch'])).toBe('--nosuch');
});

test('some command has each option that a page names by itself', () => {
  const withAll = (command: Command): readonly Command[] => [
    command,
    ...command.commands.flatMap(withAll),
  ];
  const known = withAll(program).flatMap(({ options }) => options.map(({ long }) => long));
  const named = PAGES.flatMap(({ code }) => code.flatMap((span) => /^--[a-z-]+/.exec(span) ?? []));
  expect(named).toContain('--although-changed');
  expect(named.filter((option) => ![...known, '--help'].includes(option))).toEqual([]);
});

test('commands print through one place, where control characters are written out', () => {
  // They draw a picture that they made themselves, or write out what they print line by line.
  const draw = ['print.ts', 'progress.ts', 'live-panel.ts', 'ask.ts', 'run-procedure.ts'];
  const files = ['src/cli/', 'src/app/'].flatMap((folder) =>
    readdirSync(root + folder, { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.tsx?$/.test(name))
      .map((name) => folder + name),
  );
  const writing = files.filter((name) =>
    /\b(?:stdout|stderr|output|out|err)\)?\.write\(|\bconsole\./.test(
      readFileSync(root + name, 'utf8'),
    ),
  );
  expect(writing.map((name) => basename(name)).toSorted()).toEqual(draw.toSorted());
});
