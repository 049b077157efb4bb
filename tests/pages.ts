/**
 * Reads the project's pages (every README.md and DEVELOPERS.md) for what they claim about the
 * sources: paths in code, relative links, commands. What must be true of it is in `house.test.ts`.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, posix } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('..', import.meta.url));
const FOLDERS = ['src', 'hal', 'sim', 'wiring', 'tests', '.biome'];

/** Every file and folder of the sources, from the root, folders with a slash at the end. */
const sources: readonly string[] = FOLDERS.flatMap((folder) => [
  `${folder}/`,
  ...readdirSync(root + folder, { recursive: true, withFileTypes: true }).map((entry) => {
    const path = posix.join(entry.parentPath.slice(root.length), entry.name);
    return entry.isDirectory() ? `${path}/` : path;
  }),
]);

export interface ReadPage {
  /** From the root. */
  readonly path: string;
  /** Folder of the page with a slash at the end; empty for the root. */
  readonly folder: string;
  readonly text: string;
  /** What stands between backquotes, and each line of an indented block, without its remark. */
  readonly code: readonly string[];
}

const readPage = (path: string): ReadPage => {
  const text = readFileSync(root + path, 'utf8');
  const spans = [...text.matchAll(/`([^`\n]+)`/g)].map(([, span = '']) => span);
  const lines = [...text.matchAll(/^ {4,}([^-\s].*)$/gm)].map(([, line = '']) => line);
  const code = [...spans, ...lines.flatMap((line) => line.replace(/ #.*/, '').split('&&'))];
  const folder = dirname(path);
  return {
    path,
    folder: folder === '.' ? '' : `${folder}/`,
    text,
    code: code.map((c) => c.trim()),
  };
};

export const PAGES: readonly ReadPage[] = [
  'README.md',
  'DEVELOPERS.md',
  ...sources.filter((path) => path.endsWith('/README.md')),
].map(readPage);

/** A bare name is a source file only with one of these endings: a record's files are named too. */
const SOURCE_NAME = /^[\w.*-]+\.(?:tsx?|js|c|h|py|grit|hex|svg)$/;
/** Made by the program, or by npm. */
const MADE = /^(?:records|node_modules|job-7)\//;

/** Paths that the page names in code, from the root, from its own folder, or from one below. */
export const pathsIn = ({ code }: ReadPage): readonly string[] =>
  code.filter(
    (span) => (SOURCE_NAME.test(span) || /^[\w.*-]+\/[\w.*/-]*$/.test(span)) && !MADE.test(span),
  );

/** Whether there is such a file or folder; `*` stands for any part of a name. */
export function isThere({ folder }: Pick<ReadPage, 'folder'>, path: string): boolean {
  const escaped = path.replace(/[.]/g, '\\.').replaceAll('*', '[^/]*').replace(/\/$/, '');
  const place = folder.replace(/[.]/g, '\\.');
  const named = new RegExp(`^(?:|${place}(?:.*/)?)${escaped}${path.endsWith('/') ? '/' : '/?'}$`);
  return sources.some((source) => named.test(source));
}

export interface Link {
  /** From the root; the page itself where only a heading is named. */
  readonly path: string;
  /** As the address of a heading; null where none is named. */
  readonly heading: string | null;
}

/** Links to files of the project. */
export const linksIn = ({ path, folder, text }: ReadPage): readonly Link[] =>
  [...text.matchAll(/\]\(([^)\s]+)\)/g)]
    .map(([, target = '']) => target)
    .filter((target) => !/^https?:/.test(target))
    .map((target) => {
      const [file = '', heading = null] = target.split('#');
      return { path: file === '' ? path : posix.join(folder, file), heading };
    });

/** The addresses of a page's headings, as hosts of repositories make them. */
export const headingsOf = (path: string): readonly string[] =>
  [...readFileSync(root + path, 'utf8').matchAll(/^#+ (.*)$/gm)].map(([, heading = '']) =>
    heading
      .toLowerCase()
      .replace(/[^\w\s-]/g, '')
      .replaceAll(' ', '-'),
  );

/**
 * What the page calls the program with, without its name: `npm start -- X` is `run X`, and a command
 * may be named by itself with what follows it.
 */
export const callsIn = (
  { code }: ReadPage,
  commands: readonly string[],
): readonly (readonly string[])[] =>
  code.flatMap((line) => {
    const [first = '', ...rest] = line.replace(/^npm start -- /, 'run ').split(/\s+/);
    if (first === 'npx' && rest[0] === 'meniscus') return [rest.slice(1)];
    if (first === 'meniscus') return [rest];
    return commands.includes(first) && rest.length > 0 ? [[first, ...rest]] : [];
  });

/** Names of the scripts that the page runs with `npm run`. */
export const scriptsIn = ({ code }: ReadPage): readonly string[] =>
  code.flatMap((line) => /^npm run ([\w:-]+)/.exec(line)?.[1] ?? []);
