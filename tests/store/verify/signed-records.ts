/**
 * A folder of records as a unit writes it: begun, ended, with pages, photographs and an amendment,
 * every entry signed; and how somebody would change it afterwards. Demo data throughout.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { enterPapers } from '../../../src/app/papers/enter-papers.ts';
import { canonicalJson, sha256Of } from '../../../src/core/canonical-json.ts';
import { CHAIN_START, type ChainEntry, nextEntry } from '../../../src/store/chain/chain-entry.ts';
import { firstLineSha256 } from '../../../src/store/chain/file-sha256.ts';
import type { Signer } from '../../../src/store/chain/signature.ts';
import { openUnit, type Unit } from '../../../src/store/chain/unit-key.ts';
import { verifyRecords } from '../../../src/store/verify/verify.ts';
import { bodyOf, journalTextOf, openedIn } from '../records-folder.ts';

export const JOBS = ['demo-1', 'demo-2', 'demo-3'] as const;
/** Three entries a job: begun, ended, pages. */
export const LAST_SEQ = 10;
const PAGES = ['certificate.html', 'certificate.pdf', 'report.html', 'report.pdf', 'report.json'];
const PHOTOGRAPHS = ['photo-before.jpg', 'photo-after.jpg'];
const DAY = '2026-03-01T09:00:00.000Z';

export function unitIn(folder: string): Unit {
  const opened = openUnit(folder);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  return opened.value;
}

export function fillSigned(records: string, unit: Unit, salt = 'demo salt of 16 or more'): void {
  const store = openedIn(records, { unit, newSalt: () => salt });
  for (const id of JOBS) {
    const at = (name: string): string => join(records, id, name);
    mkdirSync(join(records, id));
    writeFileSync(at('journal.jsonl'), journalTextOf(id));
    const journal = {
      file: `${id}/journal.jsonl`,
      headerSha256: firstLineSha256(at('journal.jsonl')),
    };
    store.append({ at: DAY, kind: 'begin', id, body: { journal }, personal: null });
    const personal = { technician: `demo technician of ${id}` };
    store.append({ at: DAY, kind: 'repair', id, body: bodyOf(id), personal });
    for (const name of [...PAGES, ...PHOTOGRAPHS]) writeFileSync(at(name), `${name} of ${id}`);
    enterPapers(store, { records, id, at: DAY, files: PAGES.map(at) });
  }
  store.close();
  addAmendment(records, unit, 'demo');
}

export function addAmendment(records: string, unit: Unit, text: string): void {
  const store = openedIn(records, { unit });
  const amendment = { at: DAY, kind: 'amendment', id: 'demo-1', body: { text } } as const;
  store.append({ ...amendment, personal: { by: 'demo person' } });
  store.close();
}

export const verified = (records: string, unitFolder: string | null) =>
  verifyRecords(records, () => undefined, { unitFolder, derive: null });

export const entriesOf = (records: string): readonly ChainEntry[] =>
  readFileSync(join(records, 'chain.jsonl'), 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line));

export const writeEntries = (records: string, entries: readonly ChainEntry[]): void =>
  writeFileSync(
    join(records, 'chain.jsonl'),
    entries.map((entry) => `${canonicalJson(entry)}\n`).join(''),
  );

/** Numbers, links and hashes made again, and signed by `signer`, or with the signatures as they were. */
export function linkedAgain(
  entries: readonly ChainEntry[],
  signer: Signer | null | 'as before',
): readonly ChainEntry[] {
  let head = CHAIN_START;
  return entries.map((entry) => {
    const made = nextEntry(head, entry, signer === 'as before' ? null : signer);
    const { hash: _, ...unhashed } = made;
    const kept =
      signer === 'as before' && entry.signed !== undefined
        ? { ...unhashed, signed: entry.signed }
        : unhashed;
    const linked = { ...kept, hash: sha256Of(canonicalJson(kept)) };
    head = linked;
    return linked;
  });
}
