/**
 * Draws lines of a room's code for a sample of its changes. A change that spans several lines (a
 * whole block left out) is in no sample: those are the easiest to notice, so a sample flatters less.
 */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Lines on which nothing can be changed: blank, comment, import, closing brackets, types alone. */
const NOTHING_THERE =
  /^\s*(\*|\/\*|\/\/|import |export (type|interface) |readonly |[)\]}>;,]*\s*$)/;

/** `source` is a file or a folder. Gives ranges as StrykerJS takes them, one line each. */
export function sampleOfLines(source, count, seed) {
  const all = filesOf(source).flatMap((file) =>
    readFileSync(file, 'utf8')
      .split('\n')
      .flatMap((text, i) => (NOTHING_THERE.test(text) ? [] : [`${file}:${i + 1}-${i + 1}`])),
  );
  const random = xoroshiro128plus(seed);
  const drawn = [];
  while (drawn.length < count && all.length > 0) {
    drawn.push(...all.splice(uniformInt(random, 0, all.length - 1), 1));
  }
  return drawn;
}

function filesOf(source) {
  if (statSync(source).isFile()) return [source];
  return readdirSync(source, { recursive: true })
    .filter((name) => name.endsWith('.ts'))
    .sort()
    .map((name) => join(source, name));
}
