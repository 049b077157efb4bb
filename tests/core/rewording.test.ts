import { expect, test } from 'vitest';
import { rewording } from '../../src/core/rewording.ts';

const word = rewording(
  [
    ['pressure is off', 'sin presión'],
    ['Expected {expected}, seen {seen}', 'Se esperaba {expected}; visto {seen}'],
    ['at most {amount}', 'hasta {amount}'],
    ['{value} kPa gauge', '{value} kPa rel'],
    ['{text}', '¡{text}!'],
    ['lamp too hot', 'lámpara muy caliente'],
  ],
  (english) => english.replace('.', ','),
);

test('a sentence of the record is read back and worded, with what it holds', () => {
  expect(word('Expected at most 172.0 kPa gauge, seen pressure is off')).toBe(
    'Se esperaba hasta 172,0 kPa rel; visto sin presión',
  );
});

test('a list of known sentences is worded one by one', () => {
  expect(word('lamp too hot, pressure is off')).toBe('lámpara muy caliente, sin presión');
});

test('what no template fits stays as a person wrote it', () => {
  expect(word('Resin v1.2 of the yard')).toBe('Resin v1.2 of the yard');
  expect(word('lamp too hot, and then some')).toBe('lamp too hot, and then some');
});
