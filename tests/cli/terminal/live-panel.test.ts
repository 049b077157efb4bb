import { EMPTY, from } from 'rxjs';
import { expect, test } from 'vitest';
import type { Streams } from '../../../src/app/pipeline.ts';
import { ENGLISH_WORDS } from '../../../src/app/prepare/terminal-words.ts';
import { doseLine } from '../../../src/cli/terminal/event-lines.ts';
import { createLivePanel } from '../../../src/cli/terminal/live-panel.ts';
import type { DoseSoFar } from '../../../src/control/procedure.ts';
import type { Repair } from '../../../src/procedure/repair/repair-state.ts';

/** A stream that is no terminal, and what was written to it. */
function plainStream() {
  const written: string[] = [];
  const out = { isTTY: false, write: (text: string) => written.push(text) };
  return { out: out as unknown as NodeJS.WriteStream, written };
}

/** What a panel without a picture writes while the dose goes through these values, of 6 J/cm2. */
async function linesFor(...dosesJPerM2: readonly number[]): Promise<readonly string[]> {
  const { out, written } = plainStream();
  const showing = {
    pictureOf: () => '',
    lineOf: () => null,
    doseLineOf: (dose: DoseSoFar) => doseLine(dose, ENGLISH_WORDS),
  };
  const panel = await createLivePanel<Repair>(out, showing, () => '');
  const dose$ = from(
    dosesJPerM2.map((doseJPerM2, s) => ({ timeS: 60 + s, doseJPerM2, targetJPerM2: 60_000 })),
  );
  const nothing$ = EMPTY;
  const streams: Streams<Repair> = {
    ticks$: nothing$,
    readings$: nothing$,
    events$: nothing$,
    snapshots$: nothing$,
    dose$,
  };
  panel.follow(streams).subscribe();
  return written;
}

test('each quarter of a dose is written once, the whole is left to its own event', async () => {
  const lines = await linesFor(0, 14_900, 15_000, 20_000, 31_000, 46_000, 59_900, 60_000, 63_000);
  expect(lines).toEqual([
    '01:02        dose so far 1.50 of 6.00 J/cm2\n',
    '01:04        dose so far 3.10 of 6.00 J/cm2\n',
    '01:05        dose so far 4.60 of 6.00 J/cm2\n',
  ]);
});

test('the second cure of a job counts its own quarters', async () => {
  const lines = await linesFor(50_000, 63_000, 0, 16_000);
  expect(lines).toEqual([
    '01:00        dose so far 5.00 of 6.00 J/cm2\n',
    '01:03        dose so far 1.60 of 6.00 J/cm2\n',
  ]);
});
