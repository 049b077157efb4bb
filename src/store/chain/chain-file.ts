/**
 * The chain as a file: one entry a line, append-only, flushed to disk before an append is reported.
 * A power cut may leave a torn last line. It is no entry; readers report it, and the next append
 * saves its bytes under another name before it continues. Files are read in blocks, so that memory
 * use stays flat. Whether the lines are true is left to verify.ts.
 */
import {
  closeSync,
  existsSync,
  fstatSync,
  fsyncSync,
  ftruncateSync,
  openSync,
  readSync,
  writeSync,
} from 'node:fs';
import { openPrivate, writePrivate } from '../../journal/private-file.ts';
import {
  CHAIN_START,
  type ChainEntry,
  type ChainHead,
  encodeEntry,
  parseEntry,
} from './chain-entry.ts';
import { chainPath } from './paths.ts';

const BLOCK_BYTES = 1024 * 1024;
const LINE_FEED = 0x0a;

export interface ChainLine {
  /** Without the line feed; a view into the block that was read. */
  readonly bytes: Buffer;
  /** Offset of its first byte in the file. */
  readonly offset: number;
  /** False only for a last line that was cut off. */
  readonly whole: boolean;
}

/** All lines from an offset on; none where there is no file. */
export function* chainLines(folder: string, from = 0): Generator<ChainLine> {
  const path = chainPath(folder);
  if (!existsSync(path)) return;
  const file = openSync(path, 'r');
  try {
    const block = Buffer.allocUnsafe(BLOCK_BYTES);
    let rest = Buffer.alloc(0);
    let offset = from;
    for (let read = from; ; ) {
      const taken = readSync(file, block, 0, BLOCK_BYTES, read);
      if (taken === 0) break;
      read += taken;
      const bytes = Buffer.concat([rest, block.subarray(0, taken)]);
      let start = 0;
      for (let end = bytes.indexOf(LINE_FEED); end >= 0; end = bytes.indexOf(LINE_FEED, start)) {
        yield { bytes: bytes.subarray(start, end), offset: offset + start, whole: true };
        start = end + 1;
      }
      offset += start;
      rest = Buffer.from(bytes.subarray(start));
    }
    if (rest.length > 0) yield { bytes: rest, offset, whole: false };
  } finally {
    closeSync(file);
  }
}

export interface ChainTail {
  /**
   * Head of the last complete line; the start of the chain where there is none. Null where that
   * line is no entry.
   */
  readonly head: ChainHead | null;
  /** Bytes up to the end of the last complete line. */
  readonly wholeBytes: number;
  readonly tornBytes: number;
}

/** The end of the chain, read from the end of the file. */
export function chainTail(folder: string): ChainTail {
  const path = chainPath(folder);
  if (!existsSync(path)) return { head: CHAIN_START, wholeBytes: 0, tornBytes: 0 };
  const file = openSync(path, 'r');
  try {
    return tailOf(file);
  } finally {
    closeSync(file);
  }
}

function tailOf(file: number): ChainTail {
  const { size } = fstatSync(file);
  for (let length = 64 * 1024; ; length *= 4) {
    const from = Math.max(0, size - length);
    const bytes = Buffer.alloc(size - from);
    readSync(file, bytes, 0, bytes.length, from);
    const last = bytes.lastIndexOf(LINE_FEED);
    const before = last <= 0 ? -1 : bytes.lastIndexOf(LINE_FEED, last - 1);
    if (before < 0 && from > 0) continue;
    if (last < 0) return { head: CHAIN_START, wholeBytes: 0, tornBytes: size };
    const entry = parseEntry(bytes.toString('utf8', before + 1, last));
    const wholeBytes = from + last + 1;
    return {
      head: entry === null ? null : { seq: entry.seq, hash: entry.hash },
      wholeBytes,
      tornBytes: size - wholeBytes,
    };
  }
}

/**
 * Call only under the lock. Throws where the file cannot be extended. Returns the file's new
 * length.
 */
export function writeEntry(folder: string, entry: ChainEntry, tail: ChainTail): number {
  const file = openPrivate(chainPath(folder), existsSync(chainPath(folder)) ? 'r+' : 'w+');
  try {
    if (tail.tornBytes > 0) setTornAside(folder, file, tail);
    const bytes = Buffer.from(`${encodeEntry(entry)}\n`, 'utf8');
    for (let done = 0; done < bytes.length; ) {
      done += writeSync(file, bytes, done, bytes.length - done, tail.wholeBytes + done);
    }
    fsyncSync(file);
    return tail.wholeBytes + bytes.length;
  } finally {
    closeSync(file);
  }
}

function setTornAside(folder: string, file: number, { wholeBytes, tornBytes }: ChainTail): void {
  const torn = Buffer.alloc(tornBytes);
  readSync(file, torn, 0, tornBytes, wholeBytes);
  writePrivate(`${chainPath(folder)}.torn-at-${wholeBytes}`, torn, 'w');
  ftruncateSync(file, wholeBytes);
}
