/**
 * Puts one job together on a bench: board, pipeline, journal, panel, keys, interrupts; and runs it
 * to its end. It decides the order in which these start and stop, so that outputs are safe and the
 * journal is closed whatever happens.
 */
import type { EndReason, Event, Outcome } from '../events.ts';
import { type Consumer, createPipeline, type Tick } from '../pipeline.ts';
import type { JournalEnd } from '../records/journal-format.ts';
import { clockWords, END_WORDS } from '../records/report-words.ts';
import type { BegunRecord } from './begin-record.ts';
import type { Bench } from './bench.ts';
import { createInterrupts } from './interrupts.ts';
import { journalConsumer } from './journal-consumer.ts';
import { listenToKeys } from './keys.ts';
import { createLivePanel, type Surroundings } from './live-panel.ts';
import type { LoadedSettings } from './load-settings.ts';
import { makeSafeAtLast } from './safe-at-last.ts';

export interface JobRun {
  readonly settings: LoadedSettings;
  readonly bench: Bench;
  readonly record: BegunRecord;
  readonly surroundings: Omit<Surroundings, 'look'>;
  readonly out: NodeJS.WriteStream;
  readonly err: NodeJS.WriteStream;
}

export interface JobEnd {
  readonly reason: EndReason;
  readonly why: string;
  readonly outcome: Outcome | null;
  /** Board time that the job took, s. */
  readonly boardS: number;
  /** False where the journal could not be written to its end: then nothing above rests on how it went. */
  readonly recorded: boolean;
}

export async function runJob(run: JobRun): Promise<JobEnd> {
  const { bench } = run;
  const { board } = bench;
  const panel = await createLivePanel(run.out, { ...run.surroundings, look: bench.look });
  const warn = (words: string): void => panel.aside(() => run.err.write(`${words}\n`));
  const watcher = endWatcher();
  const { journal } = run.record;
  run.record.onFailure((error) => {
    watcher.unrecorded(error);
    warn(incompleteFromNow(error));
  });
  const pacer: { stop: () => void } = { stop: () => undefined };
  const fail = (error: unknown): void => {
    watcher.fault(error);
    pacer.stop();
  };
  const consumers: readonly Consumer[] = [
    { name: 'journal', take: journalConsumer(journal) },
    { name: 'end', take: watcher.take },
    { name: 'panel', take: panel.take },
  ];
  const pipeline = createPipeline(board, run.settings.config, consumers, {
    onConsumerError: (name, error) => warn(`${name}: ${String(error)}; the job goes on without it`),
    onFault: fail,
    onEnd: () => pacer.stop(),
  });
  const interrupts = createInterrupts({
    ask: (why) => pipeline.request({ kind: 'stop', by: 'interrupt', why }),
    force: (why) => {
      watcher.interrupt(why);
      pacer.stop();
    },
    fail,
  });
  const stopListening =
    bench.keyboard === null
      ? () => undefined
      : listenToKeys(bench.keyboard, (key) => {
          if (key.kind === 'interrupt') interrupts.raise('Ended from the keyboard.');
          else bench.act(key, pipeline.request);
        });
  try {
    const running = bench.run();
    pacer.stop = running.stop;
    await running.done;
  } catch (error) {
    watcher.fault(error);
  } finally {
    makeSafeAtLast(board, warn);
    pipeline.close();
    await board.close();
    stopListening();
    interrupts.close();
    panel.close();
    journal.close(watcher.told());
  }
  return watcher.end();
}

const incompleteFromNow = (error: unknown): string =>
  `RECORD INCOMPLETE from now on: the journal cannot be written (${String(error)}). The job goes on; nothing more of it is recorded, and its record will say so.`;

/** Keeps how the job ended; the first cause stands. */
function endWatcher() {
  let boardS = 0;
  let end: JournalEnd | null = null;
  let unrecorded: { readonly error: unknown; readonly fromS: number } | null = null;
  const first = (candidate: JournalEnd): void => {
    end ??= candidate;
  };
  const told = (): JournalEnd =>
    end ?? { reason: 'fault', why: 'The run ended without a reason.', outcome: null };
  return {
    take: ({ frame, events }: Tick): void => {
      boardS = frame.timeS;
      const last = events.find((event): event is Event & { kind: 'end' } => event.kind === 'end');
      if (last !== undefined) first({ reason: last.reason, why: last.why, outcome: last.outcome });
    },
    fault: (error: unknown): void =>
      first({ reason: 'fault', why: `The controller failed: ${String(error)}`, outcome: null }),
    interrupt: (why: string): void => first({ reason: 'interrupted', why, outcome: null }),
    unrecorded: (error: unknown): void => {
      unrecorded ??= { error, fromS: boardS };
    },
    told,
    end: (): JobEnd =>
      unrecorded === null
        ? { ...told(), boardS, recorded: true }
        : { ...incompleteEnd(told(), unrecorded), boardS, recorded: false },
  };
}

/** What was not recorded is told as such, and nothing is claimed from it. */
function incompleteEnd(
  { reason, why }: JournalEnd,
  { error, fromS }: { readonly error: unknown; readonly fromS: number },
): JournalEnd {
  const from = `The journal could not be written any more at ${clockWords(fromS)} min (${String(error)}).`;
  const unrecorded = `Not on record: the job was ${END_WORDS[reason]}: ${why}`;
  return { reason: 'fault', why: `${from} ${unrecorded}`, outcome: null };
}
