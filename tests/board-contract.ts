/**
 * One suite for every kind of board: the promises of hal/board.ts, one by one. A board joins by
 * telling how to open it, how to let its time pass, and what really reaches its actuators.
 */
import { afterEach, describe, expect, test } from 'vitest';
import { type Board, BoardClosedError } from '../hal/board.ts';
import { CHANNELS, type Frame, type Outputs, SAFE } from '../src/core/frame.ts';
import { glassTests, tripTests } from './board-contract-trips.ts';
import { actuatorsOf, type OnBench, type OpenBoard, type Wish } from './board-on-bench.ts';
import { GENTLE, UNSOUND } from './board-outputs.ts';

export interface BenchAbilities {
  /** Whether the bench can silence the link. Where it cannot, those promises are not tested. */
  readonly canMute: boolean;
  /** Whether faults can be put into the bench, and its shield closed without a person. */
  readonly canFail: boolean;
}

export function boardContract(
  name: string,
  open: OpenBoard,
  { canMute, canFail }: BenchAbilities = { canMute: true, canFail: true },
): void {
  const opened: Board[] = [];
  const onBench = async (wish: Partial<Wish> = {}) => {
    const bench = await open({ muteFromS: null, faults: [], ...wish });
    opened.push(bench.board);
    const frames: Frame[] = [];
    let completed = false;
    bench.board.frames$.subscribe({
      next: (frame) => frames.push(frame),
      complete: () => {
        completed = true;
      },
    });
    const { board, advance, shaft, emergencyStop, closeShield = () => undefined } = bench;
    const acting = async () => actuatorsOf(await shaft.outputsNow());
    return {
      board,
      advance,
      frames,
      acting,
      emergencyStop,
      closeShield,
      completed: () => completed,
    };
  };

  describe(`the board contract, kept by the ${name}`, () => {
    afterEach(async () => {
      for (const board of opened.splice(0)) await board.close();
    });
    frameTests(onBench);
    if (canMute) muteTests(onBench);
    else console.warn(`${name}: mute links are not tested, nothing here can silence the link`);
    leaseTests(onBench);
    tripTests(onBench);
    if (canFail) glassTests(onBench);
    else
      console.warn(`${name}: hot glass and restarts are not tested, nothing here can cause them`);
    refusalTests(onBench);
    closeTests(onBench);
  });
}

function frameTests(onBench: OnBench): void {
  test('who subscribes after opening misses no frame', async () => {
    const { board, advance, frames } = await onBench();
    await advance(3 * board.identity.tickS);
    expect(frames[0]?.sequence).toBe(0);
  });

  test('one frame comes every tick, whether or not anybody writes', async () => {
    const { board, advance, frames } = await onBench();
    await advance(2);
    const ticks = 2 / board.identity.tickS;
    expect(Math.abs(frames.length - ticks)).toBeLessThanOrEqual(1);
  });

  test('the sequence rises by one and time never falls', async () => {
    const { advance, frames } = await onBench();
    await advance(3);
    for (let i = 1; i < frames.length; i++) {
      expect(frames[i]!.sequence).toBe(frames[i - 1]!.sequence + 1);
      expect(frames[i]!.timeS).toBeGreaterThanOrEqual(frames[i - 1]!.timeS);
    }
    expect(frames.at(-1)!.timeS).toBeGreaterThan(2.5);
  });

  test('while the link is up a frame is sampled at its own time, in whole counts', async () => {
    const { advance, frames } = await onBench();
    await advance(1);
    for (const { link, sampledAtS, timeS, counts } of frames) {
      expect(link).toBe('up');
      expect(sampledAtS).toBe(timeS);
      for (const channel of CHANNELS) {
        const count = counts[channel] ?? -1;
        expect(Number.isInteger(count) && count >= 0 && count <= 1023).toBe(true);
      }
    }
  });
}

function muteTests(onBench: OnBench): void {
  test('a mute link still gives a frame every tick, with the time of the last sample', async () => {
    const { board, advance, frames } = await onBench({ muteFromS: 1 });
    await advance(3);
    const mute = frames.filter(({ link }) => link === 'mute');
    const lastUp = frames.filter(({ link }) => link === 'up').at(-1)!;
    expect(mute.length).toBeGreaterThanOrEqual(2 / board.identity.tickS - 2);
    for (const { sampledAtS, timeS } of mute) {
      expect(sampledAtS).toBe(lastUp.sampledAtS);
      expect(timeS).toBeGreaterThan(sampledAtS);
    }
  });

  test('a link that is mute from the start makes no counts up', async () => {
    const { advance, frames } = await onBench({ muteFromS: 0 });
    await advance(1);
    expect(frames.length).toBeGreaterThan(0);
    for (const { link, counts } of frames) {
      expect(link).toBe('mute');
      for (const channel of CHANNELS) expect(counts[channel]).toBeNull();
    }
  });
}

function leaseTests(onBench: OnBench): void {
  test('the lease is protection that the board lists, and is longer than a tick', async () => {
    const { identity } = (await onBench()).board;
    expect(identity.protection).toContain('lease');
    expect(identity.leaseS).toBeGreaterThan(identity.tickS);
  });

  test('nothing acts before the first write', async () => {
    const { advance, acting } = await onBench();
    await advance(1);
    expect(await acting()).toEqual(SAFE);
  });

  test('written outputs act until their lease ends, then the board is safe by itself', async () => {
    const { board, advance, acting } = await onBench();
    const { tickS, leaseS } = board.identity;
    await advance(1);
    board.write(GENTLE);
    await advance(leaseS - tickS);
    expect(await acting()).toEqual(actuatorsOf(GENTLE));
    await advance(3 * tickS);
    expect(await acting()).toEqual(SAFE);
  });

  test('outputs that are renewed go on acting', async () => {
    const { board, advance, acting } = await onBench();
    for (let i = 0; i < 10; i++) {
      board.write(GENTLE);
      await advance(board.identity.leaseS / 2);
      expect(await acting()).toEqual(actuatorsOf(GENTLE));
    }
  });

  test('makeSafe is safe within a tick and stays so until the next write', async () => {
    const { board, advance, acting } = await onBench();
    board.write(GENTLE);
    await advance(2 * board.identity.tickS);
    board.makeSafe();
    await advance(board.identity.tickS);
    expect(await acting()).toEqual(SAFE);
    await advance(2 * board.identity.tickS);
    expect(await acting()).toEqual(SAFE);
    board.write(GENTLE);
    await advance(2 * board.identity.tickS);
    expect(await acting()).toEqual(actuatorsOf(GENTLE));
  });
}

function refusalTests(onBench: OnBench): void {
  test.each(UNSOUND)('%s makes the outputs safe and throws nothing', async (_, unsound) => {
    const { board, advance, acting } = await onBench();
    board.write(GENTLE);
    await advance(2 * board.identity.tickS);
    board.write({ ...GENTLE, ...unsound } as Outputs);
    await advance(2 * board.identity.tickS);
    expect(await acting()).toEqual(SAFE);
    board.write(GENTLE);
    await advance(2 * board.identity.tickS);
    expect(await acting()).toEqual(actuatorsOf(GENTLE));
  });

  test('the ends of the ranges are inside them', async () => {
    const { board, advance, acting } = await onBench();
    board.write({ ...GENTLE, pumpRatio: 1, lampRatio: 0 });
    await advance(2 * board.identity.tickS);
    expect((await acting()).pumpRatio).toBe(1);
    board.write({ ...GENTLE, pumpRatio: 0, lampRatio: 1 });
    await advance(2 * board.identity.tickS);
    expect(await acting()).toMatchObject({ pumpRatio: 0, ventOpen: false });
  });
}

function closeTests(onBench: OnBench): void {
  test('close makes safe, completes the frames, and no frame comes after it', async () => {
    const { board, advance, frames, acting, completed } = await onBench();
    board.write(GENTLE);
    await advance(2 * board.identity.tickS);
    const before = frames.length;
    await board.close();
    expect(await acting()).toEqual(SAFE);
    expect(completed()).toBe(true);
    await advance(1);
    expect(frames.length).toBe(before);
    expect(await acting()).toEqual(SAFE);
  });

  test('closing twice is harmless', async () => {
    const { board } = await onBench();
    await board.close();
    await expect(board.close()).resolves.toBeUndefined();
  });

  test('a write after close throws BoardClosedError and changes nothing', async () => {
    const { board, acting } = await onBench();
    await board.close();
    expect(() => board.write(GENTLE)).toThrow(BoardClosedError);
    expect(await acting()).toEqual(SAFE);
  });

  test('makeSafe after close is harmless', async () => {
    const { board, acting } = await onBench();
    await board.close();
    expect(() => board.makeSafe()).not.toThrow();
    expect(await acting()).toEqual(SAFE);
  });
}
