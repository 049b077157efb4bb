/**
 * The cable between board and host, byte by byte in board time, with its faults: cut, mute one way,
 * a corrupted byte, late or spurious bytes. It handles bytes; `message-order.ts` shuffles messages. Both the scenario's
 * faults and test hooks act here.
 */
import { has, lateByS } from '../faults/fault-effects.ts';
import type { Fault } from '../faults/faults.ts';
import { createMessageOrder } from './message-order.ts';

export type Direction = 'to-host' | 'to-board';

export interface Cable {
  readonly fromBoard: (byte: number) => void;
  readonly fromHost: (bytes: Iterable<number>) => void;
  readonly setCut: (cut: boolean) => void;
  readonly isCut: () => boolean;
  readonly setMute: (direction: Direction, mute: boolean) => void;
  /** This many of the next bytes in that direction arrive with one bit flipped. */
  readonly spoil: (direction: Direction, bytes: number) => void;
  /** Spurious bytes. */
  readonly inject: (direction: Direction, bytes: Iterable<number>) => void;
  /** One millisecond with these faults of the scenario; passes on what has arrived. */
  readonly step: (active: readonly Fault[], timeS: number) => void;
}

export interface CableEnds {
  readonly toHost: (bytes: Uint8Array) => void;
  readonly toBoard: (bytes: readonly number[]) => void;
}

const DIRECTIONS: readonly Direction[] = ['to-host', 'to-board'];
const SPOILT_BIT = 0x04;

export function createCable(ends: CableEnds): Cable {
  let cut = false;
  let active: readonly Fault[] = [];
  let heldUntilS = 0;
  let spoiltFault: Fault | null = null;
  const mute = new Set<Direction>();
  const toSpoil = new Map<Direction, number>(DIRECTIONS.map((way) => [way, 0]));
  const order = createMessageOrder();
  const arrived: number[] = [];

  const passes = (way: Direction): boolean => {
    if (cut || mute.has(way) || has('link-mute', active)) return false;
    return way === 'to-board' || !has('link-gap', active);
  };
  const carried = (way: Direction, byte: number): number => {
    const left = toSpoil.get(way) ?? 0;
    if (left === 0) return byte;
    toSpoil.set(way, left - 1);
    return byte ^ SPOILT_BIT;
  };
  const spoil = (way: Direction, bytes: number) =>
    void toSpoil.set(way, (toSpoil.get(way) ?? 0) + bytes);
  const fromBoard = (byte: number): void => {
    if (passes('to-host')) arrived.push(carried('to-host', byte));
  };
  const fromHost = (bytes: Iterable<number>): void => {
    if (passes('to-board')) ends.toBoard([...bytes].map((byte) => carried('to-board', byte)));
  };
  return {
    fromBoard,
    fromHost,
    setCut: (now) => {
      cut = now;
    },
    isCut: () => cut,
    setMute: (way, now) => {
      if (now) mute.add(way);
      else mute.delete(way);
    },
    spoil,
    inject: (way, bytes) => {
      if (way === 'to-board') return ends.toBoard([...bytes]);
      arrived.push(...bytes);
    },
    step: (now, timeS) => {
      active = now;
      const spoilt = now.find(({ kind }) => kind === 'link-spoilt') ?? null;
      if (spoilt !== null && spoilt !== spoiltFault) spoil('to-host', 1);
      spoiltFault = spoilt;
      const lateS = lateByS(now);
      if (lateS > 0 && timeS >= heldUntilS) heldUntilS = timeS + lateS;
      if (timeS < heldUntilS || arrived.length === 0) return;
      const bytes = order.pass(arrived.splice(0), now);
      if (bytes.length > 0) ends.toHost(Uint8Array.from(bytes));
    },
  };
}
