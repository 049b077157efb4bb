import { expect, test } from 'vitest';
import { typedAfter } from '../../../src/cli/terminal/typed-number.ts';

test('digits, a point or comma and a sign are written, the last taken back, and letters are not', () => {
  expect(typedAfter('10', '3', '3')).toBe('103');
  expect(typedAfter('103', ',', undefined)).toBe('103.');
  expect(typedAfter('', '-', undefined)).toBe('-');
  expect(typedAfter('103.', undefined, 'backspace')).toBe('103');
  expect(typedAfter('103', undefined, 'escape')).toBe('');
  expect(typedAfter('103', 'y', 'y')).toBeNull();
  expect(typedAfter('12345678', '9', '9')).toBeNull();
});
