/**
 * `meniscus replay`: reads a journal, runs its frames through the controller again with the settings
 * in its header, and says whether every decision is the same. Exit code 1 when one is not, or the file was changed.
 */
import { replayJournal } from '../replay.ts';
import { problemLine, type SettingsProblem } from '../settings.ts';
import { EXIT } from './exit-codes.ts';
import { loadJournal } from './load-journal.ts';
import { settingsFromInputs } from './load-settings.ts';
import { print, printError } from './print.ts';

export function replayCommand(file: string): number {
  const journal = loadJournal(file);
  if (!journal.ok) return refuse(journal.problems);
  const { header, remarks, intact } = journal.value;
  const config = settingsFromInputs(header.inputs, file);
  if (!config.ok) return refuse(config.problems);
  for (const remark of remarks) print(`note: ${remark}\n`);
  const { ticks, events, differences } = replayJournal(config.value, journal.value);
  const counted = `${ticks} ticks, ${events} events`;
  if (differences.length === 0) {
    print(`${file}: ${counted}: every decision is the same.\n`);
    // The same decisions on a file that was changed prove nothing about the job.
    return intact === false ? EXIT.fault : EXIT.completed;
  }
  const lines = differences.map(
    ({ timeS, what, recorded, replayed }) =>
      `  at ${timeS} s, ${what}\n    recorded ${recorded}\n    replayed ${replayed}`,
  );
  print(`${file}: ${counted}: decisions differ.\n${lines.join('\n')}\n`);
  return EXIT.fault;
}

function refuse(problems: readonly SettingsProblem[]): number {
  printError(`${problems.map(problemLine).join('\n')}\n`);
  return EXIT.badInput;
}
