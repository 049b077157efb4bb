/**
 * `meniscus replay`: reads a journal, replays its frames through the controller with the settings
 * in its header, and reports whether every decision is the same. Exit code 1 when one differs, or
 * the file was changed.
 */

import { configOfHeader } from '../../app/attempts/attempt-entry.ts';
import { loadJournal } from '../../app/prepare/load-journal.ts';
import { type ReplayResult, replayJournal } from '../../app/replay.ts';
import { type Checked, problemLine, type SettingsProblem } from '../../core/settings.ts';
import type { JournalContents } from '../../journal/read-journal.ts';
import { GUIDED } from '../../procedure/guided/guided.ts';
import { REPAIR } from '../../procedure/repair/repair.ts';
import { guidedFromInputs } from '../care/load-guided.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { print, printError } from '../terminal/print.ts';

export function replayCommand(file: string): number {
  const journal = loadJournal(file);
  if (!journal.ok) return refuse(journal.problems);
  const { remarks, intact } = journal.value;
  const replayed = replayOf(journal.value, file);
  if (!replayed.ok) return refuse(replayed.problems);
  for (const remark of remarks) print(`note: ${remark}\n`);
  const { ticks, events, differences } = replayed.value;
  const counted = `${ticks} ticks, ${events} events`;
  if (differences.length === 0) {
    print(`${file}: ${counted}: every decision is the same.\n`);
    // Identical decisions from a changed file prove nothing about the job.
    return intact === false ? EXIT.fault : EXIT.completed;
  }
  const lines = differences.map(
    ({ timeS, what, recorded, replayed }) =>
      `  at ${timeS} s, ${what}\n    recorded ${recorded}\n    replayed ${replayed}`,
  );
  print(`${file}: ${counted}: decisions differ.\n${lines.join('\n')}\n`);
  return EXIT.fault;
}

/** Uses the procedure that the header names, with the header's settings. */
function replayOf(
  contents: JournalContents,
  file: string,
): Checked<Pick<ReplayResult, 'ticks' | 'events' | 'differences'>> {
  const { inputs, procedure } = contents.header;
  if (procedure === undefined) {
    const config = configOfHeader(contents.header, file);
    if (!config.ok) return config;
    return { ok: true, value: replayJournal(REPAIR, config.value, contents) };
  }
  const config = guidedFromInputs(procedure, inputs, file);
  if (!config.ok) return config;
  return { ok: true, value: replayJournal(GUIDED, config.value, contents) };
}

function refuse(problems: readonly SettingsProblem[]): number {
  printError(`${problems.map(problemLine).join('\n')}\n`);
  return EXIT.badInput;
}
