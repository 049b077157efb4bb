/**
 * `meniscus care log`: records a piece of service. The entry says what and when and stays for good;
 * the person's name is kept beside it, where it can be removed.
 */

import { dayOfTime } from '../../app/prepare/care-records-read.ts';
import { partsOfNamesIn } from '../../app/prepare/personal.ts';
import type { CareBody, Service } from '../../care/care-entry.ts';
import { problemLine } from '../../core/settings.ts';
import type { JsonValue } from '../../store/chain/chain-entry.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { tellIndexMissing } from '../terminal/open-records.ts';
import { print, printError } from '../terminal/print.ts';
import { refuse } from '../terminal/refuse.ts';
import { type CareOptions, loadCare } from './care-options.ts';

export interface CareLogOptions extends CareOptions {
  readonly by: string;
  readonly note: string;
  readonly on?: string;
  readonly count?: number;
  readonly json: boolean;
}

export async function careLog(service: Service, options: CareLogOptions): Promise<number> {
  const loaded = loadCare(options);
  if (!loaded.ok) return refuse(loaded.problems.map(problemLine));
  const { at, simulated, unit, care } = loaded.value;
  const on = options.on ?? dayOfTime(at);
  const problem = problemOf(service, options, on, dayOfTime(at));
  if (problem !== null) return refuse([problem]);
  tellIndexMissing();
  const count = service === 'film-roll' ? (options.count ?? care.filmRoll.films) : null;
  const { note } = options;
  const body: CareBody = { what: 'service', unit, simulated, on, service, count, note };
  const kept = await keepCare(options.records, { at, name: service, body, person: options.by });
  const printed = options.json
    ? JSON.stringify({ id: kept.id, body }, null, 2)
    : kept.lines.join('\n');
  if (kept.ok) print(`${printed}\n`);
  else printError(`${kept.lines.join('\n')}\n`);
  return kept.ok ? EXIT.completed : EXIT.fault;
}

function problemOf(
  service: Service,
  { by, note, count }: CareLogOptions,
  on: string,
  today: string,
): string | null {
  if (on > today) return `--on is ${on}; accepted: a day up to ${today}`;
  if (count !== undefined && service !== 'film-roll') {
    return `--count is ${count}; accepted: only with film-roll`;
  }
  if (partsOfNamesIn(note, { person: by }).length > 0) {
    return `--note names ${by}; accepted: a note without the name, because it stays for good`;
  }
  return null;
}

export interface CareToKeep {
  /** ISO 8601. */
  readonly at: string;
  /** Part of the entry's id. */
  readonly name: string;
  readonly body: CareBody;
  readonly person: string;
}

export interface KeptCare {
  readonly ok: boolean;
  /** Id of the entry; null where nothing was written. */
  readonly id: string | null;
  readonly lines: readonly string[];
}

/** Writes one care entry into the chain of records. */
export async function keepCare(records: string, of: CareToKeep): Promise<KeptCare> {
  const { at, name, body, person } = of;
  const { openToWrite } = await import('../terminal/this-unit.ts');
  try {
    const opened = openToWrite(records);
    if (!opened.ok) return { ok: false, id: null, lines: opened.problems.map(problemLine) };
    const store = opened.value;
    try {
      const id = `care-${body.on}-${name}-${store.head().seq + 1}`;
      // As JSON stores it: omitted optional fields disappear.
      const kept = JSON.parse(JSON.stringify(body)) as JsonValue;
      const entry = store.append({ at, kind: 'care', id, body: kept, personal: { person } });
      const line = `Record: ${id}, entry ${entry.seq} of ${records}, ${entry.hash.slice(0, 16)}`;
      return { ok: true, id, lines: [line, ...store.notes().map((note) => `  note: ${note}`)] };
    } finally {
      store.close();
    }
  } catch (error) {
    return { ok: false, id: null, lines: [`record: ${String(error)}; nothing was written`] };
  }
}
