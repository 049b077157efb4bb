/**
 * What became of a change, kept between runs. A kill holds for the source and the change that it
 * was seen with; a survivor only as long as neither the tests nor any other source is another.
 */
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Change } from './changes.ts';

export type Outcome = 'killed' | 'survived' | 'same image' | 'does not build';

export interface Result {
  readonly outcome: Outcome;
  readonly by: { readonly file: string; readonly test: string } | null;
  /** Digest of what a survivor was seen with. */
  readonly seenWith: string;
}

export interface Results {
  readonly of: (key: string) => Result | null;
  readonly all: () => Readonly<Record<string, Result>>;
  readonly keep: (key: string, result: Result) => void;
}

export const digest = (...parts: readonly string[]): string =>
  createHash('sha256').update(parts.join('\0')).digest('hex').slice(0, 24);

export const keyOf = (rest: string, file: string, source: string, change: Change): string =>
  `${file} ${digest(rest, source, String(change.at), change.from, change.to)}`;

function read(path: string): Record<string, Result> {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return {};
  }
}

export function openResults(path: string, seenWith: string, fresh: boolean): Results {
  const kept = fresh ? {} : read(path);
  return {
    of: (key) => {
      const result = kept[key];
      if (result === undefined) return null;
      return result.outcome === 'survived' && result.seenWith !== seenWith ? null : result;
    },
    all: () => kept,
    keep: (key, result) => {
      kept[key] = result;
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, JSON.stringify(kept, null, 1));
    },
  };
}

/** Test files, those that killed most of this source's changes first, then the fastest. */
export function order(
  results: Readonly<Record<string, Result>>,
  source: string,
  files: readonly string[],
  seconds: Readonly<Record<string, number>>,
): string[] {
  const killers = Object.entries(results)
    .filter(([key]) => key.startsWith(`${source} `))
    .map(([, { by }]) => by?.file);
  const kills = (file: string) => killers.filter((killer) => killer === file).length;
  return files.toSorted((a, b) => kills(b) - kills(a) || (seconds[a] ?? 0) - (seconds[b] ?? 0));
}
