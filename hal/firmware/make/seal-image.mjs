/*
 * Puts the CRC-16/XMODEM of an image behind it, lowest byte first, into the same Intel HEX file: the
 * firmware holds its flash against that check. Plain JavaScript without packages, so that the
 * Makefile can run it in any folder.
 */
import { readFileSync, writeFileSync } from 'node:fs';

const POLYNOMIAL = 0x1021;

const path = process.argv[2];
const records = readFileSync(path, 'utf8').trim().split(/\r?\n/);
const image = [];
for (const record of records) {
  const [length, high, low, kind, ...data] = Buffer.from(record.slice(1), 'hex');
  const address = high * 256 + low;
  if (kind !== 0) continue;
  if (address !== image.length) throw new Error(`${path}: a gap before address ${address}`);
  image.push(...data.slice(0, length));
}

let crc = 0;
for (const byte of image) {
  crc ^= byte << 8;
  for (let bit = 0; bit < 8; bit++) crc = ((crc << 1) ^ (crc & 0x8000 ? POLYNOMIAL : 0)) & 0xffff;
}

const seal = [2, image.length >> 8, image.length & 0xff, 0, crc & 0xff, crc >> 8];
const sum = -seal.reduce((total, byte) => total + byte, 0) & 0xff;
const hex = [...seal, sum].map((byte) => byte.toString(16).padStart(2, '0')).join('');
records.splice(-1, 0, `:${hex.toUpperCase()}`);
writeFileSync(path, `${records.join('\n')}\n`);
