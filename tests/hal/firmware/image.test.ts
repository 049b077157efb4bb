/** The committed image is what the sources give, and image.json says the truth about it. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { FIRMWARE_VERSION } from '../../../hal/firmata/protocol.ts';
import {
  flashBytes,
  type ImageFacts,
  imageFacts,
  sha256,
} from '../../../hal/firmware/make/image-facts.ts';

const folder = fileURLToPath(new URL('../../../hal/firmware/', import.meta.url));
const facts: ImageFacts = JSON.parse(readFileSync(`${folder}image/image.json`, 'utf8'));
const hexText = readFileSync(`${folder}image/${facts.file}`, 'utf8');

const compiler = spawnSync('avr-gcc', ['--version'], { encoding: 'utf8' });
const compilerVersion = compiler.stdout?.split('\n')[0] ?? '';
/** Another compiler gives other bytes, which says nothing about the image. */
const canRebuild = compilerVersion === facts.compiler;

test('size, checksum and version in image.json are those of the image', () => {
  expect(facts.sizeBytes).toBe(flashBytes(hexText));
  expect(facts.sha256).toBe(sha256(hexText));
  expect(facts.firmware).toBe(`${FIRMWARE_VERSION.major}.${FIRMWARE_VERSION.minor}`);
});

test('the image fits the flash with a boot loader beside it', () => {
  expect(facts.sizeBytes).toBeLessThan(32_768 - 2048);
});

if (!canRebuild) {
  console.info(
    `The committed image was not rebuilt: ${facts.compiler} is not installed ` +
      `(found: ${compilerVersion || 'no avr-gcc'}). Size and checksum were checked.`,
  );
}

test.runIf(canRebuild)('building in another folder gives the committed image byte for byte', () => {
  const copy = mkdtempSync(join(tmpdir(), 'firmware-'));
  try {
    cpSync(folder, copy, { recursive: true, filter: (path) => !path.endsWith('/build') });
    const made = spawnSync('make', [], { cwd: copy, encoding: 'utf8' });
    expect(made.status, made.stderr).toBe(0);
    const rebuilt = readFileSync(join(copy, 'build/meniscus.hex'), 'utf8');
    expect(rebuilt).toBe(hexText);
    const symbols = spawnSync('avr-nm', [join(copy, 'build/meniscus.elf')], { encoding: 'utf8' });
    expect(imageFacts(rebuilt, compilerVersion, symbols.stdout)).toEqual(facts);
  } finally {
    rmSync(copy, { recursive: true });
  }
});

test.runIf(canRebuild)('at least 300 bytes of RAM are left to the stack', () => {
  const copy = mkdtempSync(join(tmpdir(), 'firmware-'));
  try {
    const made = spawnSync('make', [`BUILD=${copy}`], { cwd: folder, encoding: 'utf8' });
    expect(made.status, made.stderr).toBe(0);
    const size = spawnSync('avr-size', [join(copy, 'meniscus.elf')], { encoding: 'utf8' });
    const [, data = 0, bss = 0] = (size.stdout.split('\n')[1] ?? '')
      .trim()
      .split(/\s+/)
      .map(Number);
    expect(data + bss).toBeGreaterThan(0);
    expect(2048 - data - bss).toBeGreaterThanOrEqual(300);
  } finally {
    rmSync(copy, { recursive: true });
  }
});
