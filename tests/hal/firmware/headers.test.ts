/** The generated headers are what the pin map and the protocol give today. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { pinsHeader, protocolHeader } from '../../../hal/firmware/make/headers.ts';

const committed = (name: string) =>
  readFileSync(new URL(`../../../hal/firmware/include/${name}`, import.meta.url), 'utf8');

test('pins.h is generated from the pin map', () => {
  expect(committed('pins.h')).toBe(pinsHeader());
});

test('protocol.h is generated from the protocol', () => {
  expect(committed('protocol.h')).toBe(protocolHeader());
});
