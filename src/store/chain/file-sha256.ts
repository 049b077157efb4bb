/** SHA-256 of a file or of its first line, read by blocks. Throws where it cannot be read. */
import { createHash } from 'node:crypto';
import { closeSync, openSync, readSync } from 'node:fs';

const BLOCK_BYTES = 1024 * 1024;
/** A header is far shorter than its journal. */
const FIRST_BLOCK_BYTES = 64 * 1024;
const LINE_FEED = 0x0a;

export const fileSha256 = (path: string): string =>
  sha256OfBlocks(path, BLOCK_BYTES, (block) => ({ part: block, last: false }));

/** Without the line feed; the whole file where it has none. */
export const firstLineSha256 = (path: string): string =>
  sha256OfBlocks(path, FIRST_BLOCK_BYTES, (block) => {
    const end = block.indexOf(LINE_FEED);
    return end < 0 ? { part: block, last: false } : { part: block.subarray(0, end), last: true };
  });

/** `take`: what counts of a block, and whether it is the last that does. */
function sha256OfBlocks(
  path: string,
  blockBytes: number,
  take: (block: Buffer) => { readonly part: Buffer; readonly last: boolean },
): string {
  const file = openSync(path, 'r');
  try {
    const hash = createHash('sha256');
    const block = Buffer.allocUnsafe(blockBytes);
    for (;;) {
      const length = readSync(file, block, 0, blockBytes, null);
      const { part, last } = take(block.subarray(0, length));
      hash.update(part);
      if (last || length === 0) return hash.digest('hex');
    }
  } finally {
    closeSync(file);
  }
}
