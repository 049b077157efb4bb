/**
 * Keeps a link to the board: connects, gets the limits agreed, and when the line is lost throws the
 * connection away and tries a new one every second. It tells when the link is usable and hands on
 * the board's messages; frames, outputs and what to do about a lost link are for others.
 */
import { after, type HostClock } from './clock.ts';
import { type Connection, connect, type FirmwareSeen } from './connection.ts';
import { type Problem, problemOf } from './errors.ts';
import { agreeOnLimits, type Limits, type LimitsTalk } from './limits.ts';
import type { OpenLine } from './line.ts';
import { FIRMWARE_NAME, FIRMWARE_VERSION } from './protocol.ts';

export interface LinkEvents {
  /** The limits are in force. Also after the board has restarted and was told them again. */
  readonly onUsable: (connection: Connection) => void;
  readonly onLost: (problem: Problem) => void;
  readonly onMessage: (message: readonly number[]) => void;
  readonly onNotice: (words: string) => void;
}

export interface LinkWish extends LinkEvents {
  readonly openLine: OpenLine;
  readonly clock: HostClock;
  readonly tickS: number;
  readonly limits: Limits;
}

export interface LinkKeeper {
  /** The connection while the limits are in force, else null. */
  readonly usable: () => Connection | null;
  readonly current: () => Connection | null;
  readonly hearLimits: (body: readonly number[]) => void;
  /** The board has started anew: tells it again what it must know. */
  readonly instruct: () => void;
  /** Throws the connection away; the next one is tried in a second. */
  readonly lose: (problem: Problem) => void;
  readonly close: () => Promise<void>;
}

const RETRY_S = 1;
const MS_PER_S = 1000;

export function judgeFirmware({ name, major, minor }: FirmwareSeen): Problem | null {
  if (name !== FIRMWARE_NAME) return problemOf('wrong-firmware', `It calls itself "${name}".`);
  if (major === FIRMWARE_VERSION.major) return null;
  const { major: wanted } = FIRMWARE_VERSION;
  return problemOf('wrong-version', `It is ${major}.${minor}; version ${wanted}.x is needed.`);
}

interface Held {
  connection: Connection | null;
  agreed: boolean;
  talk: LimitsTalk | null;
  attempt: Promise<void>;
  /** Done when the last connection has let go of its line. */
  gone: Promise<void>;
  cancelRetry: () => void;
  lastProblem: string;
}

/** Makes the first attempt; its outcome is told by `onFirst`, and only success leads to retries. */
export function createLinkKeeper(
  wish: LinkWish,
  onFirst: (problem: Problem | null) => void,
): LinkKeeper {
  const ending = new AbortController();
  const held: Held = {
    connection: null,
    agreed: false,
    talk: null,
    attempt: Promise.resolve(),
    gone: Promise.resolve(),
    cancelRetry: () => {},
    lastProblem: '',
  };
  const lose = (problem: Problem): void => {
    if (held.talk !== null) held.talk.fail(problem);
    else if (drop(held, wish, problem)) retryLater();
  };
  const retryLater = (): void => {
    held.cancelRetry();
    if (ending.signal.aborted) return;
    held.cancelRetry = after(wish.clock, RETRY_S, () => begin(retried));
  };
  const retried = (problem: Problem | null): void => {
    if (problem === null) return;
    if (problem.code !== held.lastProblem) wish.onNotice(`${problem.words} ${problem.advice}`);
    held.lastProblem = problem.code;
    retryLater();
  };
  const begin = (done: (problem: Problem | null) => void): void => {
    held.attempt = attempt(held, wish, ending.signal, lose, done);
  };
  begin(onFirst);
  return {
    usable: () => (held.agreed ? held.connection : null),
    current: () => held.connection,
    hearLimits: (body) => held.talk?.hear(body),
    instruct: () => instruct(held, wish, lose),
    lose,
    close: async () => {
      ending.abort();
      held.cancelRetry();
      held.talk?.end();
      held.agreed = false;
      await held.attempt;
      const { connection } = held;
      held.connection = null;
      await connection?.close();
      await held.gone;
    },
  };
}

async function attempt(
  held: Held,
  wish: LinkWish,
  signal: AbortSignal,
  lose: (problem: Problem) => void,
  done: (problem: Problem | null) => void,
): Promise<void> {
  await held.gone;
  const outcome = await connect({
    openLine: wish.openLine,
    clock: wish.clock,
    samplingIntervalMs: wish.tickS * MS_PER_S,
    judge: judgeFirmware,
    receive: wish.onMessage,
    onLost: lose,
    onNotice: wish.onNotice,
    signal,
  });
  if (!outcome.ok) return done(outcome.problem);
  if (signal.aborted) return outcome.value.close();
  held.connection = outcome.value;
  // A board reports its version unasked when it has started anew.
  outcome.value.io.on('reportversion', () => instruct(held, wish, lose));
  agree(held, wish, (problem) => {
    if (problem === null) done(null);
    else {
      drop(held, wish, problem);
      done(problem);
    }
  });
}

/** False where there was no connection any more. */
function drop(held: Held, { onLost }: LinkWish, problem: Problem): boolean {
  const { connection } = held;
  held.connection = null;
  held.agreed = false;
  if (connection === null) return false;
  held.gone = connection.close();
  onLost(problem);
  return true;
}

function instruct(held: Held, wish: LinkWish, lose: (problem: Problem) => void): void {
  // While the limits are being agreed on, they are sent again anyway.
  if (held.agreed) agree(held, wish, (problem) => problem !== null && lose(problem));
}

function agree(held: Held, wish: LinkWish, done: (problem: Problem | null) => void): void {
  const { connection } = held;
  if (connection === null) return;
  held.talk?.end();
  held.agreed = false;
  held.talk = agreeOnLimits(wish.limits, wish.clock, connection.send, (problem) => {
    held.talk = null;
    held.agreed = problem === null;
    if (problem === null) {
      held.lastProblem = '';
      // Again, because a board that has just started anew has forgotten it.
      connection.io.setSamplingInterval(wish.tickS * MS_PER_S);
      wish.onUsable(connection);
    }
    done(problem);
  });
}
