/**
 * Reads a firmware image: Intel HEX text into the words of the chip's flash. It checks that the
 * text is complete (record checksums, end record) and fits; the chip interprets the words. Flash
 * that no record fills reads as erased.
 */

/** Flash of an ATmega328P. */
export const FLASH_BYTES = 32_768;
const ERASED = 0xff;

const DATA = 0x00;
const END = 0x01;
/** Linear base address: harmless while it is zero. */
const LINEAR_BASE = 0x04;
const START_ADDRESSES: readonly number[] = [0x03, 0x05];

export class ImageError extends Error {
  override name = 'ImageError';
}

interface HexRecord {
  readonly address: number;
  readonly kind: number;
  readonly data: Uint8Array;
}

/** Words of flash; throws ImageError naming the line and its error. */
export function loadImage(hexText: string): Uint16Array {
  const flash = new Uint8Array(FLASH_BYTES).fill(ERASED);
  const lines = hexText.split(/\r?\n/);
  for (const [index, line] of lines.entries()) {
    if (line.trim() === '') continue;
    const record = parseRecord(line.trim(), index + 1);
    if (record.kind === END) return new Uint16Array(flash.buffer);
    place(flash, record, index + 1);
  }
  throw new ImageError('firmware image: no end record; the file is cut short');
}

function parseRecord(line: string, number: number): HexRecord {
  const refuse = (why: string): ImageError =>
    new ImageError(`firmware image, line ${number}: ${why}`);
  if (!/^:(?:[0-9a-f]{2})+$/i.test(line)) throw refuse('not a record of hexadecimal bytes');
  const bytes = Uint8Array.from(Buffer.from(line.slice(1), 'hex'));
  const [length = 0, high = 0, low = 0, kind = 0] = bytes;
  const expected = length + 5;
  if (bytes.length !== expected)
    throw refuse(`${bytes.length} bytes where its length says ${expected}`);
  const sum = bytes.reduce((total, byte) => total + byte, 0) & 0xff;
  if (sum !== 0) throw refuse('the checksum does not match');
  return { address: high * 256 + low, kind, data: bytes.subarray(4, -1) };
}

function place(flash: Uint8Array, { address, kind, data }: HexRecord, line: number): void {
  if (START_ADDRESSES.includes(kind)) return;
  if (kind === LINEAR_BASE && data.every((byte) => byte === 0)) return;
  if (kind !== DATA) throw new ImageError(`firmware image, line ${line}: record kind ${kind}`);
  if (address + data.length > FLASH_BYTES) {
    throw new ImageError(`firmware image, line ${line}: past the end of ${FLASH_BYTES} bytes`);
  }
  flash.set(data, address);
}
