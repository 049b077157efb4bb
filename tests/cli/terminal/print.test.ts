import { afterEach, describe, expect, test, vi } from 'vitest';
import { print, printError } from '../../../src/cli/terminal/print.ts';

afterEach(() => vi.restoreAllMocks());

describe.each([
  ['output', 'stdout', print],
  ['errors', 'stderr', printError],
] as const)('what a command prints to its %s', (_, stream, printed) => {
  const shown = (text: string): string => {
    const lines: string[] = [];
    vi.spyOn(process[stream], 'write').mockImplementation((line) => lines.push(String(line)) > 0);
    printed(text);
    return lines.join('');
  };

  test.each([
    ['\u001b[2J', '\\u001b[2J'],
    ['\u009b2J', '\\u009b2J'],
    ['a\rb', 'a\\u000db'],
  ])('cannot steer the terminal: %j', (text, expected) => {
    expect(shown(`${text}\n`)).toBe(`${expected}\n`);
  });

  test('keeps its line breaks and letters of any language', () => {
    expect(shown('ñandú 試\nzweite\n')).toBe('ñandú 試\nzweite\n');
  });
});
