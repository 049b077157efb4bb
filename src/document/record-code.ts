/**
 * The line by which a page can be compared with its record: the record's name with its hash in the
 * chain or, where it has no entry yet, with the hash of its journal. The word in the middle says
 * which.
 */
import type { DocumentFacts } from './facts.ts';

export const codeOf = ({ recordId, chain, report }: DocumentFacts): string =>
  chain === null
    ? `meniscus:journal:${recordId}:${report.journal.sha256}`
    : `meniscus:record:${recordId}:${chain.hash}`;
