/**
 * The journal of one job: append-only JSON Lines on disk, never over an existing file. Opening
 * throws when the file exists, cannot be made, or its header does not reach the disk, because a job
 * without a record must not start by accident. After that nothing throws. The first write error is
 * reported once and ends the journal; control continues, and everything written stays readable.
 * Such a journal has no end, so its reader knows that it is incomplete. The caller decides which
 * lines are written.
 */
import { createHash } from 'node:crypto';
import { closeSync, fsync, fsyncSync, writeSync } from 'node:fs';
import type { Event, Snapshot } from '../core/events.ts';
import type { Actuators, Frame, Request } from '../core/frame.ts';
import {
  encodeEvent,
  encodeFooter,
  encodeHeader,
  encodeSnapshot,
  type JournalEnd,
  type JournalHeader,
} from './journal-format.ts';
import { openPrivate } from './private-file.ts';
import { encodeTick } from './tick-line.ts';

export interface Journal {
  readonly tick: (frame: Frame, requests: readonly Request[], actuators: Actuators) => void;
  readonly event: (event: Event) => void;
  readonly snapshot: (snapshot: Snapshot) => void;
  /** Writes the footer and ends the journal; closing twice is harmless. */
  readonly close: (end: JournalEnd) => void;
}

/** The calls that a journal makes on an open file; a test can pass one that fails. */
export interface JournalFile {
  /** Returns how many of the bytes were taken. */
  readonly write: (bytes: Uint8Array) => number;
  readonly sync: () => void;
  /** The same without waiting for the disk, so that no tick is late for it. */
  readonly syncSoon: (done: (error: unknown) => void) => void;
  readonly close: () => void;
}

/** Throws when the file exists ('wx') or cannot be made. */
export function openJournalFile(path: string): JournalFile {
  const file = openPrivate(path, 'wx');
  return {
    write: (bytes) => writeSync(file, bytes),
    sync: () => fsyncSync(file),
    syncSoon: (done) => fsync(file, done),
    close: () => closeSync(file),
  };
}

/**
 * Half a second of frames: the most that a killed program loses. The disk has them as soon as it
 * has finished with those before, so that a power cut takes no more than a second on a disk that
 * needs less than half of one.
 */
const FRAMES_UNWRITTEN = 10;

export interface JournalOptions {
  readonly path: string;
  readonly header: JournalHeader;
  /** Called once, at the first error; nothing more is written after it. */
  readonly onError: (error: unknown) => void;
  readonly open?: (path: string) => JournalFile;
}

export function createJournal({
  path,
  header,
  onError,
  open = openJournalFile,
}: JournalOptions): Journal {
  const opening: { failed: { readonly error: unknown } | null } = { failed: null };
  let report = (error: unknown): void => {
    opening.failed = { error };
  };
  const out = createLineWriter(open(path), (error) => report(error));
  let frames = 0;
  let events = 0;
  out.line(() => encodeHeader(header));
  out.flush();
  out.sync();
  if (opening.failed !== null) {
    out.close(() => '');
    throw opening.failed.error;
  }
  report = onError;
  return {
    tick: (frame, requests, actuators) => {
      frames += 1;
      out.line(() => encodeTick(frame, requests, actuators));
      if (frames % FRAMES_UNWRITTEN === 0) out.flushSoon();
    },
    event: (event) => {
      events += 1;
      out.line(() => encodeEvent(event));
      out.flush();
      if (event.kind === 'batch') out.sync();
    },
    snapshot: (snapshot) => out.line(() => encodeSnapshot(snapshot)),
    close: ({ reason, why, outcome }) =>
      out.close((sha256) => encodeFooter({ reason, why, outcome, frames, events, sha256 })),
  };
}

interface LineWriter {
  /**
   * A line that cannot be encoded also ends the journal: a record with a gap must not have an end.
   */
  readonly line: (encode: () => string) => void;
  readonly flush: () => void;
  /** Writes, and lets the disk follow. */
  readonly flushSoon: () => void;
  readonly sync: () => void;
  readonly close: (lastLine: (sha256: string) => string) => void;
}

/**
 * Buffers lines and hashes them. After an error it drops everything, so that no line is torn twice.
 */
function createLineWriter(file: JournalFile, onError: (error: unknown) => void): LineWriter {
  const hash = createHash('sha256');
  let buffer = '';
  let state: 'open' | 'failed' | 'closed' = 'open';

  const failWith = (error: unknown): void => {
    if (state !== 'open') return;
    state = 'failed';
    onError(error);
  };
  const attempt = (action: () => void): void => {
    if (state !== 'open') return;
    try {
      action();
    } catch (error) {
      failWith(error);
    }
  };
  const flush = (): void =>
    attempt(() => {
      const text = buffer;
      buffer = '';
      writeAll(file, Buffer.from(text, 'utf8'));
    });
  const followOnDisk = diskFollower(file, failWith);
  const append = (text: string): void => {
    buffer += `${text}\n`;
  };
  return {
    line: (encode) => {
      attempt(() => {
        const text = encode();
        append(text);
        hash.update(`${text}\n`, 'utf8');
      });
    },
    flush,
    flushSoon: () => {
      flush();
      attempt(followOnDisk);
    },
    sync: () => attempt(() => file.sync()),
    close: (lastLine) => {
      if (state === 'closed') return;
      attempt(() => append(lastLine(hash.digest('hex'))));
      flush();
      attempt(() => file.sync());
      try {
        file.close();
      } catch (error) {
        failWith(error);
      }
      state = 'closed';
    },
  };
}

/** One sync at a time. An error that comes after the close was reported by the close. */
function diskFollower(file: JournalFile, failWith: (error: unknown) => void): () => void {
  let following = false;
  return () => {
    if (following) return;
    following = true;
    file.syncSoon((error) => {
      following = false;
      if (error !== null && error !== undefined) failWith(error);
    });
  };
}

/** A file may take fewer bytes than offered. */
function writeAll(file: JournalFile, bytes: Uint8Array): void {
  for (let done = 0; done < bytes.length; ) {
    const taken = file.write(bytes.subarray(done));
    if (taken <= 0) throw new Error('The journal file takes no more bytes.');
    done += taken;
  }
}
