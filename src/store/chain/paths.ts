/**
 * Paths in a folder of records, and the reserved names that a job's folder may not take. The files
 * beside this one decide the contents.
 *
 *   <job>/journal.jsonl, personal.json, reports    one folder a job, with its first attempt
 *   <job>/attempt-2/journal.jsonl, ...             a later attempt of the same job
 *   care/<procedure>/journal.jsonl                 one folder a calibration or health test
 *   personal/<seq>.json                            personal data of every other entry
 *   chain.jsonl, chain.held                        the hash chain over all entries, and its lock
 *   meniscus.db                                    an index that can be rebuilt
 */
import { existsSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';

export const CHAIN_FILE = 'chain.jsonl';
export const DATABASE_FILE = 'meniscus.db';
export const JOURNAL_FILE = 'journal.jsonl';
export const REPORT_FILE = 'report.json';
const LOCK_FOLDER = 'chain.held';
const PERSONAL_FOLDER = 'personal';
const CARE_FOLDER = 'care';
export const PERSONAL_FILE = 'personal.json';

/** Pages and photographs of a record, in the folder of its journal. */
export const isPage = (name: string): boolean =>
  /^(report|certificate)(\.[\w-]+)*\.(html|pdf|json)$/.test(name);
export const isPhotograph = (name: string): boolean =>
  /^photo-(before|after)\.(jpe?g|png)$/.test(name);

export const chainPath = (folder: string): string => join(folder, CHAIN_FILE);
export const lockPath = (folder: string): string => join(folder, LOCK_FOLDER);
export const databasePath = (folder: string): string => join(folder, DATABASE_FILE);
/** Beside a repair's journal; the job writes it before its journal begins. */
export const jobPersonalPath = (jobFolder: string): string => join(jobFolder, PERSONAL_FILE);

/** The name of an attempt's record: the job's own name for the first. */
export const attemptId = (job: string, number: number): string =>
  number === 1 ? job : `${job}/attempt-${number}`;

const ATTEMPT_FOLDER = /^attempt-(\d+)$/;
const ATTEMPT_ID = /^([^/]+)\/attempt-(\d+)$/;

/** The job that a record is an attempt of, and which attempt it is. */
export function attemptOfId(id: string): { readonly job: string; readonly number: number } {
  const [, job = id, number = '1'] = ATTEMPT_ID.exec(id) ?? [];
  return { job, number: Number(number) };
}

/** Whether a folder in a job's folder holds another attempt. */
export const isAttemptFolder = (name: string): boolean => ATTEMPT_FOLDER.test(name);

/** The folder of records in which the folder of an attempt lies, and the name of its record. */
export function placeOfAttempt(folder: string): { readonly records: string; readonly id: string } {
  const above = dirname(folder);
  const isLater = isAttemptFolder(basename(folder)) && existsSync(join(above, JOURNAL_FILE));
  return isLater
    ? { records: dirname(above), id: `${basename(above)}/${basename(folder)}` }
    : { records: above, id: basename(folder) };
}

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
