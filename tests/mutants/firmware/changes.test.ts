/** The changes that a source is put to, and the count of what became of them. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { changed, changesOf, describeChange } from './changes.ts';
import { REMAINING } from './remaining.ts';
import { type Mutant, summary } from './report.ts';
import { codeOfLine } from './tokens.ts';

const inFunction = (statement: string) => `void f(void)\n{\n    ${statement}\n}\n`;
const changesIn = (statement: string) => {
  const source = inFunction(statement);
  return changesOf(source).map((change) => {
    expect(change.line).toBe(3);
    return changed(source, change).split('\n')[2]?.trim();
  });
};

test.each([
  ['a = b == c;', ['a = b != c;', ';']],
  ['if (a < 10) return;', ['if (a <= 10) return;', 'if (a < 11) return;']],
  ['x = y & ~z;', ['x = y | ~z;', 'x = y ;', 'x = y & z;', ';']],
  ['return a || b;', ['return a && b;', 'return a ;', 'return !(a || b);']],
  ['if (!ready(a)) stop();', ['if (ready(a)) stop();', 'if (!ready(a)) ;']],
  ['return -1;', ['return -0;', 'return !(-1);']],
  ['count++;', ['count--;', ';']],
  ['gate_tick();', [';']],
  ['if (a) return;', ['if (!(a)) return;', 'if (a) ;']],
  ['else b = true;', ['else b = false;', 'else ;']],
  ['x = 0xF0;', ['x = 0xf1;', ';']],
  ['x = 1UL;', ['x = 0UL;', ';']],
])('%s', (statement, wanted) => {
  const found = changesIn(statement);
  for (const change of wanted) expect(found).toContain(change);
});

test.each([
  ['uint8_t a;'],
  ['uint8_t *a = &b;'],
  ['const struct s t = {.a = u};'],
  ['/* a == b */'],
  ['send("a == b");'],
  ['// a < b'],
])('%s is left as it stands, but for a call', (statement) => {
  expect(changesIn(statement).filter((change) => change !== ';')).toEqual([]);
});

test('what is included is no code, what a macro stands for is', () => {
  const source = '#include <a-b.h>\n#define LIMIT 20\n#define PLUS(a) \\\n    ((a) + 2)\n';
  expect(changesOf(source).map((change) => [change.line, describeChange(change)])).toEqual([
    [2, '20 => 21'],
    [4, '+ => -'],
    [4, '2 => 3'],
  ]);
});

test('every change that may live is one that its source is put to', () => {
  for (const { file, code, changes } of REMAINING) {
    const source = readFileSync(new URL(`../../../hal/firmware/${file}`, import.meta.url), 'utf8');
    const there = changesOf(source)
      .filter(({ line }) => codeOfLine(source, line) === code)
      .map(describeChange);
    for (const change of changes) expect(there, `${file}: ${code}`).toContain(change);
  }
});

describe('the count', () => {
  const mutant = (outcome: Mutant['outcome'], change = 'a => b'): Mutant => ({
    file: 'gate.c',
    line: 7,
    code: 'x = a;',
    change,
    outcome,
  });
  const row = (kind: 'equivalent' | 'timing') =>
    ({ file: 'gate.c', code: 'x = a;', changes: ['c => d'], kind, reason: 'why' }) as const;
  const mutants = [
    mutant('killed'),
    mutant('killed'),
    mutant('survived'),
    mutant('survived', 'c => d'),
    mutant('same image'),
    mutant('does not build'),
  ];
  const numbers = (text: string) =>
    /^all\s+(.*) %$/m.exec(text)?.[1]?.split(/\s+/).map(Number.parseFloat);

  test('leaves equivalent changes out of the rate', () => {
    expect(numbers(summary(mutants, [row('equivalent')]))).toEqual([2, 1, 1, 1, 1, 66]);
  });

  test('counts an explained survivor as one when it is not equivalent', () => {
    expect(numbers(summary(mutants, [row('timing')]))).toEqual([2, 2, 0, 1, 1, 50]);
  });

  test('names each survivor with its place, and why it may live', () => {
    const lines = summary(mutants, [row('timing')])
      .split('\n')
      .slice(-2);
    expect(lines).toEqual([
      'gate.c:7  a => b   in   x = a;',
      'gate.c:7  c => d   in   x = a;  [timing: why]',
    ]);
  });
});
