/**
 * Facts for image.json about the firmware image beside it, computed from the image's text and the
 * output of the compiler's tools. Pure: write-image.ts runs the tools and writes the file. A test
 * checks that the committed facts are true.
 */
import { createHash } from 'node:crypto';
import { FIRMWARE_VERSION } from '../../firmata/protocol.ts';

export const IMAGE_FILE = 'meniscus.hex';
/** avr-gcc numbers data memory from this address. */
const DATA_MEMORY = 0x800000;

/** State of the firmware that is kept twice, by its names in C. */
export type KeptTwice = 'keptLimits' | 'keptRequest' | 'keptTrips' | 'keptFindings' | 'keptNowMs';

export interface ImageFacts {
  readonly file: string;
  /** Bytes of flash. */
  readonly sizeBytes: number;
  /** Of the hex file. */
  readonly sha256: string;
  readonly compiler: string;
  readonly firmware: string;
  /** Data-memory addresses of what tests corrupt. */
  readonly dataAddresses: Readonly<Record<KeptTwice | 'endOfData', number>>;
}

/** Number of data bytes in all records of an Intel HEX file. */
export function flashBytes(hexText: string): number {
  return hexText
    .split(/\r?\n/)
    .filter((line) => line.startsWith(':') && line.slice(7, 9) === '00')
    .reduce((sum, line) => sum + Number.parseInt(line.slice(1, 3), 16), 0);
}

export const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

/** Address of a symbol in data memory, from the output of avr-nm. */
function dataAddress(symbols: string, name: string): number {
  const line = symbols.split('\n').find((row) => row.endsWith(` ${name}`));
  if (line === undefined) throw new Error(`no symbol ${name} in the firmware`);
  return Number.parseInt(line, 16) - DATA_MEMORY;
}

export function imageFacts(hexText: string, compiler: string, symbols: string): ImageFacts {
  return {
    file: IMAGE_FILE,
    sizeBytes: flashBytes(hexText),
    sha256: sha256(hexText),
    compiler,
    firmware: `${FIRMWARE_VERSION.major}.${FIRMWARE_VERSION.minor}`,
    dataAddresses: {
      keptLimits: dataAddress(symbols, 'keptLimits'),
      keptRequest: dataAddress(symbols, 'keptRequest'),
      keptTrips: dataAddress(symbols, 'keptTrips'),
      keptFindings: dataAddress(symbols, 'keptFindings'),
      keptNowMs: dataAddress(symbols, 'keptNowMs'),
      endOfData: dataAddress(symbols, '__heap_start'),
    },
  };
}
