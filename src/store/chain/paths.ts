/**
 * Paths in a folder of records, and the reserved names that a job's folder may not take. The files
 * beside this one decide the contents.
 *
 *   <job>/journal.jsonl, personal.json, reports    one folder a repair
 *   care/<procedure>/journal.jsonl                 one folder a calibration or health test
 *   personal/<seq>.json                            personal data of every other entry
 *   chain.jsonl, chain.held                        the hash chain over all entries, and its lock
 *   meniscus.db                                    an index that can be rebuilt
 */
import { join } from 'node:path';

export const CHAIN_FILE = 'chain.jsonl';
export const DATABASE_FILE = 'meniscus.db';
export const JOURNAL_FILE = 'journal.jsonl';
export const REPORT_FILE = 'report.json';
const LOCK_FOLDER = 'chain.held';
const PERSONAL_FOLDER = 'personal';
const CARE_FOLDER = 'care';
export const PERSONAL_FILE = 'personal.json';

export const chainPath = (folder: string): string => join(folder, CHAIN_FILE);
export const lockPath = (folder: string): string => join(folder, LOCK_FOLDER);
export const databasePath = (folder: string): string => join(folder, DATABASE_FILE);
/** Beside a repair's journal; the job writes it before its journal begins. */
export const jobPersonalPath = (jobFolder: string): string => join(jobFolder, PERSONAL_FILE);

/** A repair's lies with its journal, because the job needs it before it has a place in the chain. */
export const personalPath = (
  folder: string,
  { kind, id, seq }: { readonly kind: string; readonly id: string; readonly seq: number },
): string =>
  kind === 'repair'
    ? jobPersonalPath(join(folder, id))
    : join(folder, PERSONAL_FOLDER, `${seq}.json`);

/** Where the folders of calibrations and health tests lie, apart from the jobs'. */
export const carePath = (folder: string): string => join(folder, CARE_FOLDER);

/** Names that a job's folder must leave to the store. */
export const isStoreName = (name: string): boolean =>
  name === PERSONAL_FOLDER || name === CARE_FOLDER || /^(chain\.|meniscus\.db)/.test(name);
