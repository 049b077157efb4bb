import { expect, test } from 'vitest';
import { ImageError, loadImage } from '../../../sim/emulator/image.ts';

const TWO_WORDS = ':0400100034127856D8';
const END = ':00000001FF';

test('words are little-endian, at the record’s address, and the rest is erased', () => {
  const image = loadImage(`${TWO_WORDS}\r\n${END}\r\n`);
  expect([...image.slice(8, 10)]).toEqual([0x1234, 0x5678]);
  expect(image[0]).toBe(0xffff);
  expect(image).toHaveLength(0x4000);
});

test.each([
  ['a wrong checksum', `${TWO_WORDS.slice(0, -2)}00\n${END}`, 'line 1: the checksum'],
  ['a record cut short', `${TWO_WORDS.slice(0, -4)}\n${END}`, 'line 1: 7 bytes'],
  ['something else', `hello\n${END}`, 'line 1: not a record'],
  ['no end', TWO_WORDS, 'no end record'],
  ['data past the end of flash', `:01800000007F\n${END}`, 'line 1: past the end'],
  ['a kind of record that it does not know', `:020000021000EC\n${END}`, 'line 1: record kind 2'],
])('%s is refused with its line', (_, text, why) => {
  expect(() => loadImage(text)).toThrow(ImageError);
  expect(() => loadImage(text)).toThrow(why);
});
