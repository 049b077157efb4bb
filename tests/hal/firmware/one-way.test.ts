/**
 * The firmware's modules use each other one way only. A module is a .c file with its header, and an
 * arrow is an #include: the compiler refuses a call to what no header declares, so that calls can
 * form no circle that includes do not.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { basename, extname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const folder = fileURLToPath(new URL('../../../hal/firmware/', import.meta.url));
const moduleOf = (file: string) => basename(file, extname(file));

type Arrows = ReadonlyMap<string, ReadonlySet<string>>;

/** From each module to those that it includes, its own header aside. */
function arrowsOf(sources: readonly (readonly [file: string, text: string])[]): Arrows {
  const arrows = new Map<string, Set<string>>();
  for (const [file, text] of sources) {
    const from = moduleOf(file);
    const to = arrows.get(from) ?? new Set();
    arrows.set(from, to);
    for (const [, header = ''] of text.matchAll(/^#include "(.+)"$/gm)) {
      if (moduleOf(header) !== from) to.add(moduleOf(header));
    }
  }
  return arrows;
}

/** What is left when modules that use nothing left, or that nothing left uses, are taken away. */
function inCircles(arrows: Arrows): string[] {
  const uses = (from: string, to: string) => arrows.get(from)?.has(to) ?? false;
  let left = [...arrows.keys()];
  for (;;) {
    const between = left.filter(
      (name) => left.some((other) => uses(name, other)) && left.some((other) => uses(other, name)),
    );
    if (between.length === left.length) return left;
    left = between;
  }
}

test('a circle over three files is found', () => {
  const arrows = arrowsOf([
    ['a.c', '#include "a.h"\n#include "b.h"\n'],
    ['b.h', '#include "c.h"\n'],
    ['c.c', '#include "a.h"\n'],
    ['c.h', '#include <avr/io.h>\n#include "d.h"\n'],
    ['d.c', '#include "d.h"\n'],
    ['e.c', '#include "a.h"\n'],
  ]);
  expect(inCircles(arrows)).toEqual(['a', 'b', 'c']);
});

test('no modules of the firmware use each other in a circle', () => {
  const files = [
    ...readdirSync(folder),
    ...readdirSync(`${folder}include`).map((name) => `include/${name}`),
  ].filter((name) => /\.[ch]$/.test(name));
  const arrows = arrowsOf(files.map((name) => [name, readFileSync(folder + name, 'utf8')]));
  expect(arrows.get('gate')).toContain('protection');
  expect(inCircles(arrows)).toEqual([]);
});
