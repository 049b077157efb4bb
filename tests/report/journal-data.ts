/** Hand-made headers, frames and actuators for the tests of the records; demo data throughout. */
import type { Snapshot } from '../../src/core/events.ts';
import { SAFE } from '../../src/core/frame.ts';
import type { Journal, JournalFile } from '../../src/journal/journal.ts';
import { createJournal } from '../../src/journal/journal.ts';
import {
  createHeader,
  type JournalEnd,
  type JournalHeader,
} from '../../src/journal/journal-format.ts';
import { HEALTHY_FRAME } from '../frames.ts';

export const headerOf = (inputs: Partial<JournalHeader['inputs']> = {}): JournalHeader =>
  createHeader({
    version: '0.0.0',
    board: {
      kind: 'simulated board',
      serial: 'demo-1',
      firmware: 'demo',
      tickS: 0.05,
      leaseS: 0.5,
      protection: ['lease'],
    },
    seed: 7,
    startedAt: '2000-01-01T08:00:00.000Z',
    inputs: { unit: {}, profile: {}, job: {}, extra: {}, ...inputs },
  });

export const SNAPSHOT: Snapshot = {
  timeS: 0,
  batch: 'running',
  phase: 'self-test',
  cycle: 0,
  pressurePa: 100_600,
  setPointPa: null,
  atmospherePa: 100_600,
  irradianceWPerM2: 0,
  doseJPerM2: 0,
  targetJPerM2: 60_000,
  glassK: 296.15,
  heatSinkK: 298.15,
  supplyV: 12.5,
};

export const DONE: JournalEnd = {
  reason: 'completed',
  why: 'The repair is done.',
  outcome: 'clear',
};

/** A file in memory; `room` is how many bytes fit before the disk is full. */
export function memoryFile(room = Number.POSITIVE_INFINITY) {
  const chunks: Uint8Array[] = [];
  const calls = { sync: 0, syncSoon: 0, close: 0, refused: 0 };
  let taken = 0;
  const file: JournalFile = {
    write: (bytes) => {
      const fits = Math.min(bytes.length, room - taken);
      if (fits === 0) {
        calls.refused += 1;
        throw new Error('ENOSPC: no space left on device');
      }
      chunks.push(bytes.slice(0, fits));
      taken += fits;
      return fits;
    },
    sync: () => {
      calls.sync += 1;
    },
    syncSoon: (done) => {
      calls.syncSoon += 1;
      done(null);
    },
    close: () => {
      calls.close += 1;
    },
  };
  return { file, calls, text: () => Buffer.concat(chunks).toString('utf8') };
}

/** A short job: `frames` ticks, and one event on every tenth. */
export function writeShortJob(journal: Journal, frames: number): void {
  for (let sequence = 0; sequence < frames; sequence++) {
    const timeS = sequence * 0.05;
    journal.tick({ ...HEALTHY_FRAME, sequence, timeS, sampledAtS: timeS }, [], SAFE);
    if (sequence % 10 === 0) {
      journal.event({ kind: 'phase', phase: 'self-test', cycle: 0, timeS });
      journal.snapshot({ ...SNAPSHOT, timeS });
    }
  }
}

/** The text of a short job that was closed as it should be. */
export function shortJournal(header = headerOf(), frames = 30, end: JournalEnd = DONE): string {
  const { file, text } = memoryFile();
  const journal = createJournal({ path: '', header, onError: fail, open: () => file });
  writeShortJob(journal, frames);
  journal.close(end);
  return text();
}

export function fail(error: unknown): never {
  throw error;
}
