/**
 * What the driver needs of a line to a board: a serial port of the host, or the emulator's
 * stand-in. A line serves one connection and is then discarded. It is never reopened, because a
 * serial port sends on reopening whatever was written while it was down.
 */
export interface LineEvents {
  open: [];
  data: [bytes: Uint8Array];
  close: [error?: Error | null];
  error: [error: Error];
}

export type Done = (error?: Error | null) => void;

export interface Line {
  readonly isOpen: boolean;
  on<E extends keyof LineEvents>(event: E, listener: (...args: LineEvents[E]) => void): unknown;
  off<E extends keyof LineEvents>(event: E, listener: (...args: LineEvents[E]) => void): unknown;
  /** `done` runs when the line has taken the bytes, or with the reason for failure. */
  write(bytes: Buffer, done?: Done): unknown;
  /** `done` runs when the bytes have left. */
  drain(done: Done): unknown;
  close(done?: Done): unknown;
}

export type OpenLine = () => Promise<Line>;
