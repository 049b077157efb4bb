/**
 * Puts one job together on a bench: board, pipeline, journal, panel, keys, interrupts; and runs it
 * to its end. It decides the order in which these start and stop, so that outputs are safe and the
 * journal is closed whatever happens.
 */
import type { EndReason, Event, Outcome } from '../events.ts';
import { type Consumer, createPipeline, type Tick } from '../pipeline.ts';
import { createJournal, type Journal } from '../records/journal.ts';
import type { JournalHeader } from '../records/journal-format.ts';
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
  readonly journalPath: string;
  readonly header: JournalHeader;
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
}

export async function runJob(run: JobRun): Promise<JobEnd> {
  const warn = (words: string): void => void run.err.write(`${words}\n`);
  const { bench } = run;
  const { board } = bench;
  const panel = await createLivePanel(run.out, { ...run.surroundings, look: bench.look });
  const journal = createJournal({
    path: run.journalPath,
    header: run.header,
    onError: (error) => warn(`journal: ${String(error)}; the job goes on without it`),
  });
  const watcher = endWatcher();
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
    closeJournal(journal, watcher.end());
  }
  return watcher.end();
}

function closeJournal(journal: Journal, { reason, why, outcome }: JobEnd): void {
  journal.close({ reason, why, outcome });
}

/** Keeps how the job ended; the first cause stands. */
function endWatcher() {
  let boardS = 0;
  let end: Omit<JobEnd, 'boardS'> | null = null;
  const first = (candidate: Omit<JobEnd, 'boardS'>): void => {
    end ??= candidate;
  };
  return {
    take: ({ frame, events }: Tick): void => {
      boardS = frame.timeS;
      const last = events.find((event): event is Event & { kind: 'end' } => event.kind === 'end');
      if (last !== undefined) first({ reason: last.reason, why: last.why, outcome: last.outcome });
    },
    fault: (error: unknown): void =>
      first({ reason: 'fault', why: `The controller failed: ${String(error)}`, outcome: null }),
    interrupt: (why: string): void => first({ reason: 'interrupted', why, outcome: null }),
    end: (): JobEnd => ({
      ...(end ?? { reason: 'fault', why: 'The run ended without a reason.', outcome: null }),
      boardS,
    }),
  };
}
