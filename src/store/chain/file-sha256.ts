/** SHA-256 of a whole file, read by blocks. Throws where it cannot be read. */
import { createHash } from 'node:crypto';
import { closeSync, openSync, readSync } from 'node:fs';

const BLOCK_BYTES = 1024 * 1024;

export function fileSha256(path: string): string {
  const file = openSync(path, 'r');
  try {
    const hash = createHash('sha256');
    const block = Buffer.allocUnsafe(BLOCK_BYTES);
    for (;;) {
      const taken = readSync(file, block, 0, BLOCK_BYTES, null);
      if (taken === 0) return hash.digest('hex');
      hash.update(block.subarray(0, taken));
    }
  } finally {
    closeSync(file);
  }
}
