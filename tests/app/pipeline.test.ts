import { merge, of, Subject, tap } from 'rxjs';
import { describe, expect, test } from 'vitest';
import type { Board } from '../../hal/board.ts';
import { type Consumer, createPipeline, type PipelineCallbacks } from '../../src/app/pipeline.ts';
import { type Frame, type Outputs, SAFE } from '../../src/core/frame.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import type { Repair } from '../../src/procedure/repair/repair-state.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { HEALTHY_FRAME } from '../frames.ts';

const frameAt = (n: number): Frame => ({
  ...HEALTHY_FRAME,
  sequence: n,
  timeS: n * 0.05,
  sampledAtS: n * 0.05,
});

/** A board reduced to what passes through it; `failsAt` is the write that throws, from 1. */
function bareBoard(failsAt = Number.POSITIVE_INFINITY) {
  const frames$ = new Subject<Frame>();
  const written: Outputs[] = [];
  const log: string[] = [];
  const board: Board = {
    identity: {
      kind: 'bare',
      serial: '0',
      firmware: '0',
      tickS: 0.05,
      leaseS: 0.5,
      protection: [],
    },
    frames$,
    write: (outputs) => {
      log.push('write');
      written.push(outputs);
      if (written.length === failsAt) throw new Error('port is gone');
    },
    makeSafe: () => log.push('makeSafe'),
    close: async () => undefined,
  };
  const send = (n: number, change: Partial<Frame> = {}): void =>
    frames$.next({ ...frameAt(n), ...change });
  const fail = (error: Error): void => frames$.error(error);
  return { board, written, log, send, fail };
}

const quiet: PipelineCallbacks = {
  onConsumerError: () => undefined,
  onFault: () => undefined,
  onEnd: () => undefined,
};

describe('the pipeline', () => {
  test('writes the whole set of outputs for every frame, before any consumer hears of it', () => {
    const { board, log, send } = bareBoard();
    const consumer: Consumer<Repair> = {
      name: 'a',
      follow: ({ ticks$ }) => ticks$.pipe(tap(() => log.push('a'))),
    };
    createPipeline(board, REPAIR, DEFAULT_CONFIG, [consumer], quiet);
    send(0);
    send(1);
    expect(log).toEqual(['write', 'a', 'write', 'a']);
  });

  test('a consumer that throws is told of once, gets nothing more, and stops neither control nor the others', () => {
    const { board, written, send } = bareBoard();
    const errors: string[] = [];
    let heard = 0;
    const broken: Consumer<Repair> = {
      name: 'broken',
      follow: ({ ticks$ }) =>
        ticks$.pipe(
          tap(() => {
            throw new Error('disk full');
          }),
        ),
    };
    const sound: Consumer<Repair> = {
      name: 'sound',
      follow: ({ ticks$ }) =>
        ticks$.pipe(
          tap(() => {
            heard += 1;
          }),
        ),
    };
    createPipeline(board, REPAIR, DEFAULT_CONFIG, [broken, sound], {
      ...quiet,
      onConsumerError: (name, error) => errors.push(`${name}: ${String(error)}`),
    });
    for (let n = 0; n < 5; n++) send(n);
    expect(written.length).toBe(5);
    expect(heard).toBe(5);
    expect(errors).toEqual(['broken: Error: disk full']);
  });

  test('when control itself fails the board is made safe and the fault is told', () => {
    const { board, log, send } = bareBoard();
    const faults: unknown[] = [];
    createPipeline(board, REPAIR, DEFAULT_CONFIG, [], {
      ...quiet,
      onFault: (error) => faults.push(error),
    });
    send(0);
    // A frame that no board can make: the types do not bind what comes from outside.
    send(1, { counts: null as unknown as Frame['counts'] });
    expect(log.at(-1)).toBe('makeSafe');
    expect(faults.length).toBe(1);
  });

  test.each([
    ['a board whose write throws', { write: 2 }],
    ['a frame source that fails', { frames: true }],
  ])('%s is made safe, then told once, and every consumer ends', (_, fails) => {
    const { board, log, send, fail } = bareBoard('write' in fails ? fails.write : undefined);
    const heard = () => log.filter((line) => line === 'a').length;
    const consumer: Consumer<Repair> = {
      name: 'a',
      follow: ({ ticks$ }) => ticks$.pipe(tap(() => log.push('a'))),
    };
    createPipeline(board, REPAIR, DEFAULT_CONFIG, [consumer], {
      ...quiet,
      onConsumerError: (name) => log.push(`consumer ${name}`),
      onFault: (error) => log.push(`fault: ${String(error)}`),
    });
    send(0);
    send(1);
    if ('frames' in fails) fail(new Error('line broke'));
    const count = heard();
    expect(log.slice(-2)).toEqual([
      'makeSafe',
      'frames' in fails ? 'fault: Error: line broke' : 'fault: Error: port is gone',
    ]);
    send(2);
    expect(heard()).toBe(count);
    expect(log.filter((line) => line.startsWith('fault'))).toHaveLength(1);
  });

  test('a board that cannot even be made safe does not hide what failed first', () => {
    const { board, send } = bareBoard(1);
    const faults: unknown[] = [];
    const dead: Board = {
      ...board,
      makeSafe: () => {
        throw new Error('no line');
      },
    };
    createPipeline(dead, REPAIR, DEFAULT_CONFIG, [], {
      ...quiet,
      onFault: (error) => faults.push(error),
    });
    send(0);
    expect(faults).toHaveLength(1);
    expect(String(faults[0])).toContain('port is gone');
    expect(String(faults[0])).toContain('no line');
  });

  test('requests are drained once a tick', () => {
    const { board, written, send } = bareBoard();
    const pipeline = createPipeline(board, REPAIR, DEFAULT_CONFIG, [], quiet);
    send(0);
    pipeline.request({ kind: 'stop', by: 'interrupt', why: 'test' });
    for (let n = 1; n < 10; n++) send(n);
    expect(written[1]).toMatchObject(SAFE);
    expect(written[1]?.display[0]).toMatch(/^-- Stopp/);
  });

  test('ends once the job has ended and writes nothing after it', () => {
    const { board, written, send } = bareBoard();
    let ended = 0;
    const pipeline = createPipeline(board, REPAIR, DEFAULT_CONFIG, [], {
      ...quiet,
      onEnd: () => {
        ended += 1;
      },
    });
    send(0);
    pipeline.request({ kind: 'stop', by: 'interrupt', why: 'test' });
    for (let n = 1; n < 200; n++) send(n);
    const count = written.length;
    send(200);
    expect(ended).toBe(1);
    expect(written.length).toBe(count);
    expect(written.at(-1)).toMatchObject(SAFE);
  });

  test('gives frames that come at once on subscribing to every consumer', () => {
    const { board } = bareBoard();
    const eager: Board = { ...board, frames$: of(frameAt(0), frameAt(1)) };
    const heard: string[] = [];
    const named = (name: string): Consumer<Repair> => ({
      name,
      follow: ({ ticks$ }) =>
        ticks$.pipe(tap(({ frame }) => heard.push(`${name}${frame.sequence}`))),
    });
    createPipeline(eager, REPAIR, DEFAULT_CONFIG, [named('a'), named('b')], quiet);
    expect(heard).toEqual(['a0', 'b0', 'a1', 'b1']);
  });

  test('names its streams: one reading a frame in units, each event once, the dose only when it moves', () => {
    const { board, send } = bareBoard();
    const readings: number[] = [];
    const kinds: string[] = [];
    const doses: number[] = [];
    const follow: Consumer<Repair>['follow'] = ({ readings$, events$, dose$ }) =>
      merge(
        readings$.pipe(tap(({ timeS }) => readings.push(timeS))),
        events$.pipe(tap(({ kind, timeS }) => kinds.push(`${kind} ${timeS}`))),
        dose$.pipe(tap(({ doseJPerM2 }) => doses.push(doseJPerM2))),
      );
    const pipeline = createPipeline(
      board,
      REPAIR,
      DEFAULT_CONFIG,
      [{ name: 'all', follow }],
      quiet,
    );
    for (let n = 0; n < 5; n++) send(n);
    pipeline.request({ kind: 'stop', by: 'interrupt', why: 'test' });
    send(5);
    expect(readings).toEqual([0, 0.05, 0.1, 0.15000000000000002, 0.2, 0.25]);
    expect(kinds.filter((kind) => kind === 'batch 0.25')).toHaveLength(1);
    expect(doses).toEqual([0]);
  });

  test('two requests between two frames are answered in the order in which they came', () => {
    const { board, send } = bareBoard();
    const asked: string[][] = [];
    const follow: Consumer<Repair>['follow'] = ({ ticks$ }) =>
      ticks$.pipe(tap(({ requests }) => asked.push(requests.map(({ kind }) => kind))));
    const pipeline = createPipeline(board, REPAIR, DEFAULT_CONFIG, [{ name: 'a', follow }], quiet);
    send(0);
    pipeline.request({ kind: 'hold' });
    pipeline.request({ kind: 'button', button: 'more' });
    send(1);
    send(2);
    expect(asked).toEqual([[], ['hold', 'button'], []]);
  });
});
