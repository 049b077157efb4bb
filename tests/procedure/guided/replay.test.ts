/** A guided procedure keeps a journal like a repair's: written, read and run again, it decides the same. */
import { describe, expect, test } from 'vitest';
import { replayJournal } from '../../../src/app/replay.ts';
import { encodeEvent, encodeFooter, encodeHeader } from '../../../src/journal/journal-format.ts';
import { type JournalContents, readJournal } from '../../../src/journal/read-journal.ts';
import { encodeTick } from '../../../src/journal/tick-line.ts';
import { GUIDED } from '../../../src/procedure/guided/guided.ts';
import { guidedResultOf } from '../../../src/procedure/guided/guided-result.ts';
import { GUIDED_PROCEDURES } from '../../../src/procedure/guided/procedures.ts';
import { headerOf } from '../../report/journal-data.ts';
import { type GuidedOptions, type GuidedRun, runGuided } from './guided-bench.ts';

/** As the program would have written it, and read back. */
function journalOf(options: GuidedOptions): { run: GuidedRun; journal: JournalContents } {
  const lines: string[] = [encodeHeader({ ...headerOf(), procedure: options.procedure })];
  const run = runGuided({
    ...options,
    watch: (step, board, ask) => options.watch?.(step, board, ask) ?? false,
    record: ({ frame, requests, step }) => {
      lines.push(encodeTick(frame, requests, step.state.commanded));
      lines.push(...step.events.map(encodeEvent));
    },
  });
  const end = run.events.find((event) => event.kind === 'end');
  if (end?.kind !== 'end') throw new Error('no end');
  const { reason, why, outcome } = end;
  const frames = lines.filter((line) => line.startsWith('[')).length;
  const { length: events } = run.events;
  const sha256 = '0'.repeat(64);
  lines.push(encodeFooter({ reason, why, outcome, frames, events, sha256 }));
  const read = readJournal(`${lines.join('\n')}\n`, 'guided.jsonl');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return { run, journal: read.value };
}

const pointsIn = ({ events }: Pick<JournalContents, 'events'>) =>
  events.flatMap((event) => (event.kind === 'point' ? [event.point] : []));

describe.each(Object.keys(GUIDED_PROCEDURES) as (keyof typeof GUIDED_PROCEDURES)[])(
  '%s, replayed from its journal',
  (procedure) => {
    const { run, journal } = journalOf({ procedure, seed: 3 });

    test('says which procedure it was', () => {
      expect(journal.header.procedure).toBe(procedure);
    });

    test('gives every decision and every event again', () => {
      const { differences, ticks } = replayJournal(GUIDED, run.config, journal);
      expect(differences).toEqual([]);
      expect(ticks).toBeGreaterThan(1_000);
    });

    test('kept the points that the result was made of', () => {
      expect(pointsIn(journal)).toEqual(run.last.state.procedure.points);
      const procedure = { ...run.last.state.procedure, points: pointsIn(journal) };
      expect(guidedResultOf(run.config, procedure)).toEqual(run.result);
    });
  },
);

test('a typed number is part of the journal', () => {
  let typed = false;
  const { journal, run } = journalOf({
    procedure: 'pressure',
    watch: ({ snapshot }, _, ask) => {
      if (snapshot.asksNumber && !typed) {
        typed = true;
        ask({ kind: 'enter', valueSI: 100_510 });
      }
      return false;
    },
  });
  expect(pointsIn(journal)[0]?.reference).toBeCloseTo(100_510, 6);
  expect(replayJournal(GUIDED, run.config, journal).differences).toEqual([]);
  const silent = journal.ticks.map((tick) => ({ ...tick, requests: [] }));
  const without = replayJournal(GUIDED, run.config, { ...journal, ticks: silent });
  expect(without.differences).not.toEqual([]);
});

test('another reference number, or a changed frame, is found', () => {
  const { journal, run } = journalOf({ procedure: 'pressure', seed: 3 });
  const ticks = journal.ticks.map((tick, index) => {
    if (index !== 900) return tick;
    const switches = { ...tick.frame.switches, emergencyStopPressed: true };
    return { ...tick, frame: { ...tick.frame, switches } };
  });
  expect(replayJournal(GUIDED, run.config, { ...journal, ticks }).differences).not.toEqual([]);
  const settings = { ...run.config.settings, averageS: run.config.settings.averageS + 1 };
  const other = { ...run.config, settings };
  expect(replayJournal(GUIDED, other, journal).differences).not.toEqual([]);
});
