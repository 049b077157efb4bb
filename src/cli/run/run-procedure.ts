/**
 * Runs one procedure to its end: board, pipeline, journal, panel, keys, interrupts. It decides the
 * order in which these start and stop, so that outputs are safe and the journal is closed whatever
 * happens. The caller chooses the procedure and uses its result.
 */
import { tap } from 'rxjs';
import { journalConsumer } from '../../app/journal-consumer.ts';
import { type Consumer, createPipeline, type Tick } from '../../app/pipeline.ts';
import type { ControllerState, ProcedureTypes } from '../../control/controller-state.ts';
import type { Procedure } from '../../control/procedure.ts';
import type { Snapshot } from '../../core/events.ts';
import type { Request } from '../../core/frame.ts';
import { escapedLines } from '../../core/plain-text.ts';
import type { Journal } from '../../journal/journal.ts';
import type { JournalEnd } from '../../journal/journal-format.ts';
import { ENGLISH_RECORD } from '../../report/language.ts';
import { clockWords } from '../../report/words.ts';
import { INITIAL_SIGNAL_MEMORY } from '../../signal/decode.ts';
import { createInterrupts } from '../terminal/interrupts.ts';
import { listenToKeys } from '../terminal/keys.ts';
import { createLivePanel, type LivePanel, type Showing } from '../terminal/live-panel.ts';
import { createTypedNumber, type TypedNumber } from '../terminal/typed-number.ts';
import type { BegunRecord } from './begin-record.ts';
import { makeSafeAtLast } from './safe-at-last.ts';
import { createSafeWatch, type SeenSafe } from './seen-safe.ts';
import type { Session } from './session.ts';

export interface ProcedureRun<P extends ProcedureTypes> {
  readonly procedure: Procedure<P>;
  readonly config: P['config'];
  readonly session: Session;
  readonly record: BegunRecord;
  /** The part of a snapshot that the journal keeps; null where a replay is enough. */
  readonly keeps: (snapshot: P['snapshot']) => Snapshot | null;
  readonly showing: Showing<P>;
  /** Numbers typed at a keyboard; null where the procedure asks for none. */
  readonly numbers: {
    readonly asked: (snapshot: P['snapshot']) => boolean;
    /** The request to the controller, or why the number is not accepted. */
    readonly request: (value: number) => Request | string;
  } | null;
  readonly out: NodeJS.WriteStream;
  readonly err: NodeJS.WriteStream;
}

export interface ProcedureEnd<P extends ProcedureTypes> extends JournalEnd {
  /** Board time taken, s. */
  readonly boardS: number;
  /**
   * False where the journal could not be written to its end: then none of the above is evidence.
   */
  readonly recorded: boolean;
  /** What was seen after the outputs went safe; null where nothing was. */
  readonly seenSafe: SeenSafe | null;
  /** Null where no frame ever came. */
  readonly last: ControllerState<P> | null;
}

export async function runProcedure<P extends ProcedureTypes>(
  run: ProcedureRun<P>,
): Promise<ProcedureEnd<P>> {
  const { session } = run;
  const { board } = session;
  const { journal, onFailure } = run.record;
  const watcher = endWatcher<P>();
  const safeWatch = createSafeWatch(board, run.config.unit.channels);
  const pacer: { stop: () => void } = { stop: () => undefined };
  const fail = (error: unknown): void => {
    watcher.fault(error);
    pacer.stop();
  };
  const typed = typedFor(run, watcher, (request) => pipeline.request(request));
  const panel = await createLivePanel(run.out, run.showing, typed.text);
  const warn = (words: string): void =>
    panel.aside(() => run.err.write(escapedLines(`${words}\n`)));
  onFailure((error) => {
    watcher.unrecorded(error);
    warn(incompleteFromNow(error));
  });
  const consumers = consumersOf(run, { journal, watcher, panel });
  const pipeline = createPipeline(board, run.procedure, run.config, consumers, {
    onConsumerError: (name, error) =>
      warn(`${name}: ${String(error)}; the job continues without it`),
    onFault: fail,
    onEnd: () =>
      safeWatch.begin(watcher.last()?.state.signal ?? INITIAL_SIGNAL_MEMORY, () => pacer.stop()),
  });
  const interrupts = createInterrupts({
    ask: (why) => pipeline.request({ kind: 'stop', by: 'interrupt', why }),
    force: (why) => {
      watcher.interrupt(why);
      pacer.stop();
    },
    fail,
  });
  const stopListening = listen(session, typed, pipeline.request, interrupts.raise);
  try {
    const running = session.run();
    pacer.stop = running.stop;
    await running.done;
  } catch (error) {
    watcher.fault(error);
  } finally {
    makeSafeAtLast(board, warn);
    pipeline.close();
    safeWatch.close();
    await board.close();
    for (const close of [stopListening, interrupts.close, panel.close]) close();
    journal.close(watcher.journalEnd());
  }
  return { ...watcher.end(), seenSafe: safeWatch.result() };
}

/** Display consumers come last: by then everything else has seen the tick. */
const consumersOf = <P extends ProcedureTypes>(
  { session, keeps }: ProcedureRun<P>,
  to: {
    readonly journal: Journal;
    readonly watcher: Pick<EndWatcher<P>, 'take'>;
    readonly panel: Pick<LivePanel<P>, 'follow'>;
  },
): readonly Consumer<P>[] => [
  { name: 'journal', follow: journalConsumer(to.journal, keeps) },
  { name: 'end', follow: ({ ticks$ }) => ticks$.pipe(tap(to.watcher.take)) },
  { name: 'panel', follow: to.panel.follow },
  {
    name: 'person',
    follow: ({ ticks$ }) =>
      ticks$.pipe(tap(({ frame, outputs }) => session.person?.(frame.timeS, outputs.display))),
  },
];

const typedFor = <P extends ProcedureTypes>(
  { numbers }: ProcedureRun<P>,
  { last }: EndWatcher<P>,
  ask: (request: Request) => void,
): TypedNumber =>
  createTypedNumber({
    asked: () => {
      const tick = last();
      return numbers !== null && tick !== null && numbers.asked(tick.snapshot);
    },
    take: (value) => {
      const request = numbers?.request(value) ?? null;
      if (request === null || typeof request === 'string') return request;
      ask(request);
      return null;
    },
  });

function listen(
  { keyboard, act }: Session,
  typed: TypedNumber,
  request: (request: Request) => void,
  interrupt: (why: string) => void,
): () => void {
  if (keyboard === null) return () => undefined;
  return listenToKeys(keyboard, typed, (key) => {
    if (key.kind === 'interrupt') interrupt('Ended from the keyboard.');
    else act(key, request);
  });
}

const incompleteFromNow = (error: unknown): string =>
  `RECORD INCOMPLETE from now on: the journal cannot be written (${String(error)}). The job continues unrecorded, and its record will say so.`;

type EndWatcher<P extends ProcedureTypes> = ReturnType<typeof endWatcher<P>>;

/** Keeps the reason for the end and the last tick; the first cause counts. */
function endWatcher<P extends ProcedureTypes>() {
  let last: Tick<P> | null = null;
  let end: JournalEnd | null = null;
  let unrecorded: { readonly error: unknown; readonly fromS: number } | null = null;
  const first = (candidate: JournalEnd): void => {
    end ??= candidate;
  };
  const journalEnd = (): JournalEnd =>
    end ?? { reason: 'fault', why: 'The run ended without a reason.', outcome: null };
  const boardS = (): number => last?.frame.timeS ?? 0;
  return {
    take: (tick: Tick<P>): void => {
      last = tick;
      const found = tick.events.find(({ kind }) => kind === 'end');
      if (found?.kind !== 'end') return;
      first({ reason: found.reason, why: found.why, outcome: found.outcome });
    },
    fault: (error: unknown): void =>
      first({ reason: 'fault', why: `The controller failed: ${String(error)}`, outcome: null }),
    interrupt: (why: string): void => first({ reason: 'interrupted', why, outcome: null }),
    unrecorded: (error: unknown): void => {
      unrecorded ??= { error, fromS: boardS() };
    },
    last: (): Tick<P> | null => last,
    journalEnd,
    end: (): Omit<ProcedureEnd<P>, 'seenSafe'> => ({
      ...(unrecorded === null ? journalEnd() : incompleteEnd(journalEnd(), unrecorded)),
      boardS: boardS(),
      recorded: unrecorded === null,
      last: last?.state ?? null,
    }),
  };
}

/** States that the end was not recorded, and claims nothing from it. */
function incompleteEnd(
  { reason, why }: JournalEnd,
  { error, fromS }: { readonly error: unknown; readonly fromS: number },
): JournalEnd {
  const from = `The journal could not be written any more at ${clockWords(fromS)} min (${String(error)}).`;
  const unrecorded = `Not on record: the job was ${ENGLISH_RECORD.ends[reason]}: ${why}`;
  return { reason: 'fault', why: `${from} ${unrecorded}`, outcome: null };
}
