/**
 * Remarks on a readable journal: a torn end, a missing footer, bytes or settings that differ from
 * their hashes, missing frames, an end that contradicts earlier lines. It only reports; the caller
 * decides whether a remark disqualifies the record.
 */
import type { Event } from '../core/events.ts';
import { hashesOf, type JournalFooter, type JournalHeader } from './journal-format.ts';
import type { JournalTick } from './tick-line.ts';

interface Readable {
  readonly header: JournalHeader;
  readonly ticks: readonly JournalTick[];
  readonly events: readonly Event[];
  readonly footer: JournalFooter | null;
  readonly intact: boolean | null;
}

/** `tornLength` is the number of characters in a cut last line that were left out. */
export function remarksOn(
  { header, ticks, events, footer, intact }: Readable,
  wholeLines: number,
  tornLength: number,
): readonly string[] {
  const hashes = hashesOf(header.inputs);
  const changed = (['unit', 'profile', 'job'] as const).filter(
    (name) => hashes[name] !== header.hashes[name],
  );
  const gap = ticks.findIndex(
    ({ frame }, i) => i > 0 && frame.sequence !== (ticks[i - 1]?.frame.sequence ?? 0) + 1,
  );
  const miscounted =
    footer !== null && (footer.frames !== ticks.length || footer.events !== events.length);
  const told = events.find((event) => event.kind === 'end');
  const contradicted =
    footer !== null &&
    told !== undefined &&
    (told.reason !== footer.reason || told.outcome !== footer.outcome);
  const remarks: readonly (readonly [boolean, string])[] = [
    [tornLength > 0, `Line ${wholeLines + 1} is torn (${tornLength} characters) and was left out.`],
    [footer === null, 'The record is incomplete: it has no end, and nothing vouches for the rest.'],
    [intact === false, 'The file was changed after it was written: checksum differs.'],
    [changed.length > 0, `Not the settings that were hashed: ${changed.join(', ')}.`],
    [gap > 0, `Frames are missing before frame ${ticks[gap]?.frame.sequence}.`],
    [miscounted, 'The end counts other frames or events than the file holds.'],
    [contradicted, 'The end contradicts the last event.'],
  ];
  return remarks.filter(([applies]) => applies).map(([, words]) => words);
}
