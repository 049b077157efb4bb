/**
 * The page *what is proved and how*: what was tried, what must hold, what found each fault, and
 * what this unit cannot know. It is written by the campaign alone; a test holds it to the tables.
 */
import { ACCEPTED_PAIRS } from './accepted.ts';
import type { Campaign } from './campaign.ts';
import { FALSITIES } from './claims.ts';
import { JOB_IDS } from './jobs.ts';
import { LIMITS } from './limits.ts';
import { ROWS_BY_PLACE } from './rows.ts';
import { type RowSummary, troubleOf } from './summary.ts';

const MOST_WAYS = 3;

export const pageOf = (done: Campaign): string =>
  `${[...head(done), ...limitLines(), ...placesOf(done), ...pairLines(), ...brokenLines(done)].join('\n')}\n`;

function head({ every, rows, cases, pairs, healthy }: Campaign): readonly string[] {
  const count = (state: RowSummary['state']): number =>
    rows.filter((row) => row.state === state).length;
  return [
    '# What is proved and how',
    '',
    'Written by `npm run faults`; do not edit it. Every fault below was put into a sound job on the simulated board, once in each phase where it can begin and three times in a long one, and the job was run to its end with a person who presses YES. The faulty part is never mended. What happened is judged on the plant’s truth, not on what the sensors said.',
    '',
    ...(every === 1 ? [] : [`**A sample: one in ${every} of these cases was run.**`, '']),
    `- ${rows.length} faults in ${cases} cases: ${count('found')} found, ${count('accepted')} that this unit cannot find, ${count('not found')} not found, ${count('broken')} broken.`,
    `- ${pairs.cases} seeded pairs of faults: ${pairs.found} found, ${pairs.broken.length} broken.`,
    `- ${healthy.jobs} sound jobs with a seed each: ${healthy.wrong.length} with an alarm or cut short, ${healthy.misstated} with a dose or time outside its stated uncertainty (coverage 95 %).`,
    '',
    `The jobs (${JOB_IDS.join(', ')}) hold and cure as short as the unit allows; every phase is there once. A fault is *found* where an alarm, the seal test, the person or the record tells of it in at least one case. A case in which nothing tells of it counts as harmless only because no limit was passed and nothing false was shown. A row is *broken* where one of its cases passed a limit or shows a claim that is false. No certification is claimed. Stop and over-pressure switch are proved, except where one of their contacts is shorted: what fails after a proof is found by the next one, and the record names the day of the last. The rows of line, board and firmware are tried on the real firmware image by \`npm run faults -- --board emulated\`, each under vacuum and in the light.`,
    '',
  ];
}

function limitLines(): readonly string[] {
  return [
    '## What must hold at every step of the plant',
    '',
    '| limit | what it says | may be passed for | source |',
    '| --- | --- | --- | --- |',
    ...LIMITS.map(
      ({ id, words, graceS, source }) => `| ${id} | ${words} | ${graceS} s | ${source} |`,
    ),
    '',
    `No claim of the record may be *shown* and false: ${Object.keys(FALSITIES).join(', ')}. \`tests/faults/claims.ts\` says when each is false.`,
    '',
  ];
}

function placesOf({ rows }: Campaign): readonly string[] {
  return Object.entries(ROWS_BY_PLACE).flatMap(([place, own]) => {
    const summaries = rows.filter(({ row }) => own.some(({ id }) => id === row.id));
    if (summaries.length === 0) return [];
    return [
      `## Faults of ${place}`,
      '',
      '| fault | what | | found | by, in how many cases, after at most |',
      '| --- | --- | --- | --- | --- |',
      ...summaries.map(lineOf),
      '',
    ];
  });
}

function lineOf({ row, cases, found, by, state, accepted }: RowSummary): string {
  const ways = by
    .slice(0, MOST_WAYS)
    .map((one) => `${one.by} (${one.cases}, ${one.longestS.toFixed(1)} s)`)
    .join(', ');
  const withdrawn =
    accepted?.withdraws === null || accepted === null
      ? ''
      : ` The record does not claim: ${accepted.withdraws}.`;
  const told = accepted === null ? ways : `${accepted.why}${withdrawn}`;
  return `| ${row.id} | ${row.title} | ${state} | ${found} of ${cases} | ${told} |`;
}

const pairLines = (): readonly string[] => [
  '## Pairs that no third sense tells',
  '',
  ...ACCEPTED_PAIRS.map(
    ({ one, other, passes, why }) =>
      `- ${one.join(', ')} with ${other.join(', ')}: ${why} Limits that may be passed: ${passes.join(', ')}.`,
  ),
  '',
];

function brokenLines({ rows, pairs }: Campaign): readonly string[] {
  const broken = [...rows.flatMap((row) => row.broken), ...pairs.broken];
  if (broken.length === 0) return ['## Broken', '', 'Nothing.'];
  const shown = broken.slice(0, 60);
  return [
    '## Broken',
    '',
    'Each is run again, with its course, by `npm run faults -- --case ID`.',
    '',
    ...shown.map((one) => `- \`${one.id}\`: ${troubleOf(one)}`),
    ...(broken.length > shown.length ? [`- and ${broken.length - shown.length} more`] : []),
  ];
}
