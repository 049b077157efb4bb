import { expect, test } from 'vitest';
import { createCable } from '../../../sim/emulator/bench-cable.ts';
import type { Fault } from '../../../sim/faults/faults.ts';

const plugged = () => {
  const host: number[] = [];
  const board: number[] = [];
  const cable = createCable({
    toHost: (bytes) => host.push(...bytes),
    toBoard: (bytes) => board.push(...bytes),
  });
  let atMs = 0;
  const step = (active: readonly Fault[] = []) => cable.step(active, ++atMs / 1000);
  return { cable, host, board, step };
};
const fault = (kind: Fault['kind'], amount?: number): Fault =>
  ({ kind, from: { atS: 0 }, ...(amount === undefined ? {} : { amount }) }) as Fault;

test('bytes go both ways', () => {
  const { cable, host, board, step } = plugged();
  cable.fromBoard(1);
  cable.fromHost([2, 3]);
  step();
  expect({ host, board }).toEqual({ host: [1], board: [2, 3] });
});

test('nothing goes through a cut cable, and what was sent then never arrives', () => {
  const { cable, host, board, step } = plugged();
  cable.setCut(true);
  cable.fromBoard(1);
  cable.fromHost([2]);
  step();
  cable.setCut(false);
  step();
  expect({ host, board }).toEqual({ host: [], board: [] });
});

test('one direction can be mute alone', () => {
  const { cable, host, board, step } = plugged();
  cable.setMute('to-host', true);
  cable.fromBoard(1);
  cable.fromHost([2]);
  step();
  expect({ host, board }).toEqual({ host: [], board: [2] });
});

test('spoilt bytes arrive, and differ by a bit', () => {
  const { cable, host, step } = plugged();
  cable.spoil('to-host', 1);
  for (const byte of [0x10, 0x20]) cable.fromBoard(byte);
  step();
  expect(host).toEqual([0x14, 0x20]);
});

test('bytes that nobody sent arrive like others', () => {
  const { cable, host, board, step } = plugged();
  cable.inject('to-host', [7]);
  cable.inject('to-board', [8]);
  step();
  expect({ host, board }).toEqual({ host: [7], board: [8] });
});

test('the fault of a mute link stops both directions, that of missing frames only one', () => {
  const { cable, host, board, step } = plugged();
  step([fault('link-mute')]);
  cable.fromBoard(1);
  cable.fromHost([2]);
  step([fault('link-gap')]);
  cable.fromBoard(3);
  cable.fromHost([4]);
  step();
  expect({ host, board }).toEqual({ host: [], board: [4] });
});

test('the fault of noise spoils one byte, however long it lasts', () => {
  const { cable, host, step } = plugged();
  const noise = fault('link-spoilt');
  for (let i = 0; i < 3; i++) {
    step([noise]);
    cable.fromBoard(0x10);
  }
  step();
  expect(host).toEqual([0x14, 0x10, 0x10]);
});

test('the fault of lateness holds bytes back for its time and loses none', () => {
  const { cable, host, step } = plugged();
  step([fault('link-late', 0.01)]);
  cable.fromBoard(1);
  for (let ms = 1; ms < 10; ms++) step();
  expect(host).toEqual([]);
  step();
  expect(host).toEqual([1]);
});
