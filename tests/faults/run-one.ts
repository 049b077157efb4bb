/**
 * One case alone: its course with the times of the board, what found it, and what was broken. On
 * request its journal is written, for `meniscus report` and for a replay.
 */
import type { Event, Snapshot } from '../../src/core/events.ts';
import { createJournal, openJournalFile } from '../../src/journal/journal.ts';
import { caseOf } from './cases.ts';
import type { Run } from './judge.ts';
import { isBroken, troubleOf } from './summary.ts';
import { runCase } from './try-case.ts';
import { courseOnEmulated } from './try-emulated.ts';

export function runOne(id: string, journal: string | null): number {
  const run = runCase(caseOf(id));
  printCourse(run);
  if (journal !== null) writeJournal(journal, run, run.header);
  return told(run);
}

/** Its journal is not written: the board's own bytes are its course. */
export async function runOneEmulated(id: string): Promise<number> {
  const run = await courseOnEmulated(id);
  printCourse(run);
  return told(run);
}

function printCourse({ log, faults }: Run): void {
  for (const { kind, channel, amount, from, lastsS } of faults) {
    const fromS = 'atS' in from ? from.atS.toFixed(2) : '';
    const what = [kind, channel, amount].filter((part) => part !== undefined).join(' ');
    console.log(`${fromS} s  fault: ${what}${lastsS === undefined ? '' : ` for ${lastsS} s`}`);
  }
  for (const event of log.events) {
    const { timeS, kind, ...rest } = event;
    console.log(`${timeS.toFixed(2)} s  ${kind}: ${Object.values(rest).join(' · ')}`);
  }
}

function told({ result }: Run): number {
  const { foundBy, foundAfterS, end, shown } = result;
  console.log(
    foundBy === null ? 'not found' : `found by ${foundBy} after ${foundAfterS?.toFixed(2)} s`,
  );
  console.log(`end: ${end}; shown: ${shown.join(', ') || 'nothing'}`);
  if (!isBroken(result)) return 0;
  console.log(`broken: ${troubleOf(result)}`);
  return 1;
}

function writeJournal(path: string, { log, end }: Run, header: Run['header']): void {
  const fail = (error: unknown): never => {
    throw error;
  };
  const journal = createJournal({ path, header, onError: fail, open: openJournalFile });
  let [e, s] = [0, 0];
  for (const { frame, requests, actuators } of log.ticks) {
    journal.tick(frame, requests, actuators);
    for (; (log.events[e]?.timeS ?? LATER) <= frame.timeS; e++)
      journal.event(log.events[e] as Event);
    for (; (log.snapshots[s]?.timeS ?? LATER) <= frame.timeS; s++) {
      journal.snapshot(log.snapshots[s] as Snapshot);
    }
  }
  journal.close(end);
}

const LATER = Number.POSITIVE_INFINITY;
