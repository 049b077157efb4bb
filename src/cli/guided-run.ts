/**
 * Runs one guided procedure on a bench to its end: board, loop, panel, keys, interrupts. It decides
 * the order in which these start and stop, so that outputs are safe whatever happens. What comes out
 * is kept by `guided-record.ts`.
 */
import type { EndReason } from '../events.ts';
import { QUANTITIES } from '../guided/quantities.ts';
import type { Progress } from '../guided/step.ts';
import { stepGuided } from '../guided-controller.ts';
import {
  type GuidedConfig,
  type GuidedRequest,
  type GuidedStepResult,
  guidedStart,
} from '../guided-state.ts';
import { createLoop, type Loop } from '../pipeline.ts';
import type { GuidedBench } from './guided-bench.ts';
import { listenToGuidedKeys, type TypedNumber } from './guided-keys.ts';
import { QUANTITY_OF, unfitValue } from './guided-options.ts';
import { createGuidedPanel } from './guided-panel.ts';
import { createInterrupts } from './interrupts.ts';
import { KEYS_LINE, REAL_KEYS_LINE } from './keys.ts';
import { makeSafeAtLast } from './safe-at-last.ts';

export interface GuidedEnd {
  readonly reason: EndReason;
  readonly why: string;
  readonly progress: Progress | null;
  /** Board time that it took, s. */
  readonly boardS: number;
}

interface GuidedTick extends GuidedStepResult {
  readonly timeS: number;
}

export async function runGuided(
  config: GuidedConfig,
  bench: GuidedBench,
  out: NodeJS.WriteStream,
): Promise<GuidedEnd> {
  const { board } = bench;
  const watcher = endWatcher();
  const pacer: { stop: () => void } = { stop: () => undefined };
  let typed: TypedNumber | null = null;
  const panel = await createGuidedPanel(out, {
    title: bench.title,
    reference: () => referenceWords(config, bench),
    typed: () => typed?.text() ?? '',
    keys: keysOf(bench),
  });
  const fail = (error: unknown): void => {
    watcher.end('fault', `The controller failed: ${String(error)}`);
    pacer.stop();
  };
  const warn = (words: string): void => void process.stderr.write(`${words}\n`);
  const consumers = [
    { name: 'end', take: watcher.take },
    { name: 'panel', take: panel.take },
    {
      name: 'person',
      take: ({ timeS, outputs }: GuidedTick) => bench.look?.(timeS, outputs.display),
    },
  ];
  const loop = createLoop(board, loopOf(config), consumers, {
    onConsumerError: (name, error) => warn(`${name}: ${String(error)}; the procedure goes on`),
    onFault: fail,
    onEnd: () => pacer.stop(),
  });
  const interrupts = createInterrupts({
    ask: (why) => loop.request({ kind: 'stop', by: 'interrupt', why }),
    force: (why) => {
      watcher.end('interrupted', why);
      pacer.stop();
    },
    fail,
  });
  typed = listen(bench, config, watcher.asksNumber, loop.request, interrupts.raise);
  try {
    const running = bench.run();
    pacer.stop = running.stop;
    await running.done;
  } catch (error) {
    watcher.end('fault', `The controller failed: ${String(error)}`);
  } finally {
    makeSafeAtLast(board, warn);
    loop.close();
    await board.close();
    typed?.close();
    interrupts.close();
    panel.close();
  }
  return watcher.result();
}

const loopOf = (config: GuidedConfig): Loop<GuidedTick, GuidedRequest> => ({
  start: guidedStart(config.procedure),
  advance: (before, frame, requests) => ({
    timeS: frame.timeS,
    ...stepGuided(config, before, frame, requests),
  }),
});

function listen(
  bench: GuidedBench,
  { procedure }: GuidedConfig,
  asksNumber: () => boolean,
  request: (request: GuidedRequest) => void,
  interrupt: (why: string) => void,
): TypedNumber | null {
  if (bench.keyboard === null) return null;
  return listenToGuidedKeys(bench.keyboard, {
    asksNumber,
    key: (key) => {
      if (key.kind === 'interrupt') interrupt('Ended from the keyboard.');
      else bench.act(key, request);
    },
    number: (value) => {
      if (procedure === 'health') return null;
      const unfit = unfitValue(procedure, value);
      if (unfit !== null) return unfit;
      request({ kind: 'enter', valueSI: QUANTITIES[QUANTITY_OF[procedure]].toSI(value) });
      return null;
    },
  });
}

function keysOf({ keyboard, seed }: GuidedBench): string | null {
  if (keyboard === null) return null;
  return seed === null ? REAL_KEYS_LINE : KEYS_LINE;
}

function referenceWords({ procedure }: GuidedConfig, { reference }: GuidedBench): string | null {
  if (procedure === 'health' || reference === null) return null;
  const value = reference();
  const { unit, decimals } = QUANTITIES[QUANTITY_OF[procedure]];
  return value === null ? 'nothing to measure' : `${value.toFixed(decimals)} ${unit}`;
}

/** Keeps how it ended and what had been read by then; the first cause stands. */
function endWatcher() {
  let last: GuidedTick | null = null;
  let ending: Pick<GuidedEnd, 'reason' | 'why'> | null = null;
  const end = (reason: EndReason, why: string): void => {
    ending ??= { reason, why };
  };
  return {
    end,
    take: (tick: GuidedTick): void => {
      last = tick;
      for (const event of tick.events) if (event.kind === 'end') end(event.reason, event.why);
    },
    asksNumber: (): boolean => last?.snapshot.asksNumber ?? false,
    result: (): GuidedEnd => ({
      ...(ending ?? { reason: 'fault', why: 'The run ended without a reason.' }),
      progress: last?.state.progress ?? null,
      boardS: last?.timeS ?? 0,
    }),
  };
}
