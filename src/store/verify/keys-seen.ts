/** Which unit keys signed the entries of a chain, and from which entry to which. */
import type { ChainEntry } from '../chain/chain-entry.ts';
import { fingerprintOf } from '../chain/signature.ts';

export interface KeySeen {
  readonly fingerprint: string;
  readonly from: number;
  readonly to: number;
  readonly entries: number;
}

export function createKeysSeen() {
  const keys = new Map<string, KeySeen>();
  let unsigned = 0;
  return {
    see: ({ seq, signed }: ChainEntry): void => {
      if (signed === undefined) {
        unsigned += 1;
        return;
      }
      const known = keys.get(signed.by);
      keys.set(signed.by, {
        fingerprint: known?.fingerprint ?? fingerprintOf(signed.by),
        from: known?.from ?? seq,
        to: seq,
        entries: (known?.entries ?? 0) + 1,
      });
    },
    seen: () => ({ keys: [...keys.values()], unsigned }),
    /** Another computer, or another account, may rightly have taken over. */
    remark: (): string | null => {
      const [first, ...others] = keys.values();
      if (first === undefined || others.length === 0) return null;
      const named = others.map(({ fingerprint, from }) => `${fingerprint} from entry ${from} on`);
      return `more than one unit key signed: ${first.fingerprint}, and ${named.join(', ')}`;
    },
  };
}
