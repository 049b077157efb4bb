/** `meniscus records show`: one record with its amendments and removals, in order, or as JSON. */
import type { Command } from 'commander';
import { listAt, numberAt, textAt } from '../../core/fields.ts';
import { escapedValue } from '../../core/plain-text.ts';
import { mJPerCm2FromJPerM2 } from '../../core/units.ts';
import { othersOfPaneIn } from '../../report/same-pane.ts';
import { INCOMPLETE } from '../../report/verdict.ts';
import type { ChainEntry } from '../../store/chain/chain-entry.ts';
import { attemptOfId } from '../../store/chain/paths.ts';
import type { FoundRepair } from '../../store/index/find.ts';
import type { ShownEntry, ShownRecord } from '../../store/records-store.ts';
import { attemptsIn } from '../../store/verify/unrecorded.ts';
import { recordName } from '../run/record-name.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { noSuchRecord, type RecordsOptions, withRecords } from '../terminal/open-records.ts';
import { print } from '../terminal/print.ts';

interface ShowOptions extends RecordsOptions {
  readonly json: boolean;
}

export function addShow(records: Command): void {
  records
    .command('show')
    .description('one record: result, people, later amendments')
    .argument('<id>', 'as `meniscus records list` shows it')
    .option('--json', 'as JSON', false)
    .addHelpText('after', '\nExample: meniscus records show demo-0001\n')
    .action(async (id: string, _, command: Command) => {
      process.exitCode = await show(id, command.optsWithGlobals<ShowOptions>());
    });
}

function show(id: string, { records, json }: ShowOptions): Promise<number> {
  return withRecords(records, 'read', (store) => {
    const record = store.show(id);
    if (record === null) return noSuchRecord(records, id);
    const later = attemptsIn(records, id).slice(1);
    const others = samePaneAs(id, store.entries('repair'));
    const text = json
      ? JSON.stringify({ ...record, samePane: others }, null, 2)
      : linesOf(record, later, others).join('\n');
    print(`${text}\n`);
    return EXIT.completed;
  });
}

function linesOf(
  { id, repair, entries }: ShownRecord,
  later: readonly string[],
  others: readonly string[],
): readonly string[] {
  const attempts = later.length === 0 ? [] : [['later attempts', later.join(', ')] as const];
  const pane = others.length === 0 ? [] : [['also on its pane', others.join(', ')] as const];
  const facts =
    repair === null
      ? []
      : [...factsOf(repair), ...pane, ...attempts, ...claimsIn(entries), ...setAside(entries)];
  const people = peopleOf(entries, repair);
  const width = Math.max(...[...facts, ...people].map(([name]) => name.length), 0);
  return [
    id,
    ...[...facts, ...people].map(
      ([name, value]) => `  ${name.padEnd(width)}  ${escapedValue(value)}`,
    ),
    '',
    'Entries, appended and never overwritten:',
    ...entries.flatMap(entryLines),
  ];
}

/** A damage names those that were looked at before it; those after it name it. */
function samePaneAs(id: string, repairs: readonly ChainEntry[]): readonly string[] {
  const { job } = attemptOfId(id);
  const named = repairs.flatMap((entry) => {
    const others = othersOfPaneIn(entry.body).map(recordName);
    const { job: other } = attemptOfId(entry.id);
    if (other === job) return others;
    return others.includes(job) ? [other] : [];
  });
  return [...new Set(named)].toSorted();
}

function factsOf(repair: FoundRepair): readonly (readonly [string, string])[] {
  const { damage, diameterM, outcome, ruleSets, assessment } = repair;
  const mm = diameterM === null ? '' : `, ${(diameterM * 1000).toFixed(0)} mm`;
  return [
    ['started', `${repair.startedAt}${repair.simulated === 1 ? ' (simulated time)' : ''}`],
    ['ended', repair.endedAt ?? 'not known'],
    ['unit', [repair.unit, repair.serial].filter((word) => word !== null).join(', board ')],
    ['profile', repair.profile ?? 'not known'],
    ['damage', damage === null ? 'not known' : `${damage}${mm}`],
    ['rule sets', ruleSets === '' ? 'none asked' : `${ruleSets}: ${assessment}`],
    ['end', repair.endReason],
    ['outcome', outcome ?? NO_OUTCOME[`${isIncomplete(repair)}`]],
    ['verdict', repair.verdict],
    ['dose', doseWords(repair)],
    ['resin, lot', `${repair.resin ?? 'not known'}, ${repair.lot ?? 'not known'}`],
    ['alarms', String(repair.alarms)],
  ];
}

const NO_OUTCOME = {
  false: 'none: the job ended before it was judged',
  true: 'not recorded',
} as const;

const isIncomplete = ({ verdict }: FoundRepair): boolean => verdict === INCOMPLETE;

/** The claims that are not shown or not met, one line each, and the names of the others. */
function claimsIn(entries: readonly ShownEntry[]): readonly (readonly [string, string])[] {
  const body = repairBody(entries);
  const claims = listAt(body, 'result', 'claims').map((one) => ({
    name: [textAt(one, 'id'), textAt(one, 'portion'), fieldIn(one)]
      .filter((part) => part !== null)
      .join(', '),
    state: textAt(one, 'state') ?? '',
    against: listAt(one, 'against').map(String).join('; '),
  }));
  const shown = claims.filter(({ state }) => state === 'shown').map(({ name }) => name);
  return [
    ...claims
      .filter(({ state }) => state !== 'shown')
      .map(({ name, state, against }) => [state, `${name}: ${against}`] as const),
    ...(shown.length === 0 ? [] : [['shown', shown.join('; ')] as const]),
    // Entries from before there were claims.
    ...listAt(body, 'result', 'reservations').map(
      (headline) => ['reservation', String(headline)] as const,
    ),
  ];
}

const fieldIn = (claim: unknown): string | null => {
  const number = numberAt(claim, 'field');
  return number === null ? null : `field ${number}`;
};

const repairBody = (entries: readonly ShownEntry[]): unknown =>
  entries.findLast(({ entry }) => entry.kind === 'repair')?.entry.body;

/** The overridden checks and the reasons; the person's name is among the people. */
function setAside(entries: readonly ShownEntry[]): readonly (readonly [string, string])[] {
  const named = listAt(repairBody(entries), 'overrides').map(
    (one) => `${textAt(one, 'item') ?? ''}: ${textAt(one, 'reason') ?? ''}`,
  );
  const label = 'checks set aside';
  return named.length === 0 ? [[label, 'none']] : named.map((words) => [label, words] as const);
}

function doseWords({ doseJPerM2, targetJPerM2, doseVerdict }: FoundRepair): string {
  const joules = (jPerM2: number): string => (mJPerCm2FromJPerM2(jPerM2) / 1000).toFixed(2);
  if (doseJPerM2 === null || doseVerdict === null) return 'not known';
  const target = targetJPerM2 === null ? '' : ` of ${joules(targetJPerM2)}`;
  if (doseVerdict === 'not recorded') {
    return `not recorded to the end; ${joules(doseJPerM2)}${target} J/cm2 until the record breaks off`;
  }
  return `${joules(doseJPerM2)}${target} J/cm2, ${doseVerdict}`;
}

const LABELS: Readonly<Record<string, string>> = { overrideBy: 'set aside by' };

function peopleOf(
  entries: readonly ShownEntry[],
  repair: FoundRepair | null,
): readonly (readonly [string, string])[] {
  const own = entries.find(({ entry }) => entry.kind === 'repair' || entry.kind === 'care');
  const fields = Object.entries(own?.personal ?? {});
  if (fields.length > 0) return fields.map(([name, value]) => [LABELS[name] ?? name, value]);
  if (repair?.removedAt != null) return [['personal data', `removed on ${repair.removedAt}`]];
  return own?.entry.personalSha256 == null
    ? []
    : [['personal data', 'do not match what was written; run: meniscus records verify']];
}

function entryLines({ entry, personal }: ShownEntry): readonly string[] {
  const { seq, at, kind, hash, body } = entry;
  const words = textAt(body, 'text') ?? textAt(body, 'reason') ?? textAt(body, 'what');
  const { by: name } = personal ?? {};
  const by = name === undefined ? '' : `, by ${escapedValue(name)}`;
  const said = words === null ? [] : [`     ${escapedValue(words)}`];
  return [`  ${String(seq).padStart(4)} ${at} ${kind}${by}`, ...said, `       ${hash}`];
}
