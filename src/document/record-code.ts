/**
 * The line by which a page can be compared with its record: the record's name with its hash in the
 * chain and the fingerprint of the key that signed it or, where it has no entry yet, with the hash
 * of its journal. The word in the middle says which.
 */
import type { DocumentFacts } from './facts.ts';

export interface RecordCode {
  readonly of: 'record' | 'journal';
  readonly id: string;
  readonly sha256: string;
  /** Hexadecimal digits without separators; null where the entry is not signed. */
  readonly unitKey: string | null;
}

export function codeOf({ recordId, chain, report }: DocumentFacts): string {
  if (chain === null) return `meniscus:journal:${recordId}:${report.journal.sha256}`;
  const { hash, unitKey } = chain;
  const key = unitKey === null ? '' : `:${unitKey.replaceAll('-', '')}`;
  return `meniscus:record:${recordId}:${hash}${key}`;
}

const CODE =
  /meniscus:(record|journal):([A-Za-z0-9._-]+(?:\/attempt-\d+)?):([0-9a-f]{64})(?::([0-9a-f]{32}))?/;

/** The first code in a text, or null: pages hold it as text, PDF files also as a keyword. */
export function codeIn(text: string): RecordCode | null {
  const [found, of, id = '', sha256 = '', unitKey = null] = CODE.exec(text) ?? [];
  return found === undefined ? null : { of: of === 'record' ? of : 'journal', id, sha256, unitKey };
}
