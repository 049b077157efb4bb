import { expect, test } from 'vitest';
import type { Line } from '../../../hal/firmata/line.ts';
import { createLineSource } from '../../../hal/firmata/line-source.ts';
import { createScriptedLine } from './scripted-firmware.ts';
import { createVirtualTime, settled } from './virtual-time.ts';

/** A port whose lines open and close when a test says so. */
function portOf() {
  const time = createVirtualTime();
  const doors: { readonly open: (line: Line) => void; readonly fail: (why: Error) => void }[] = [];
  const openLine = () =>
    new Promise<Line>((open, fail) => {
      doors.push({ open, fail });
    });
  const { line$, released } = createLineSource(openLine, time.scheduler);
  const got: Line[] = [];
  const errors: unknown[] = [];
  const subscribe = () =>
    line$.subscribe({ next: (line) => got.push(line), error: (error) => errors.push(error) });
  const isReleased = async () => {
    let done = false;
    void released().then(() => {
      done = true;
    });
    await settled();
    return done;
  };
  return { time, doors, got, errors, subscribe, isReleased };
}

test('a line is open for as long as somebody has it', async () => {
  const { doors, got, subscribe, isReleased } = portOf();
  const line = createScriptedLine();
  const held = subscribe();
  await settled();
  doors[0]!.open(line);
  await settled();
  expect(got).toEqual([line]);
  expect(line.isOpen).toBe(true);
  held.unsubscribe();
  expect(await isReleased()).toBe(true);
  expect(line.isOpen).toBe(false);
});

test('a line that opens when nobody wants it any more is closed, and may fail meanwhile', async () => {
  const { doors, got, subscribe, isReleased } = portOf();
  const line = createScriptedLine();
  let letGo = () => {};
  line.closable = new Promise((resolve) => {
    letGo = resolve;
  });
  const held = subscribe();
  await settled();
  held.unsubscribe();
  expect(await isReleased()).toBe(false);
  doors[0]!.open(line);
  expect(await isReleased()).toBe(false);
  expect(() => line.breaks('error')).not.toThrow();
  letGo();
  expect(await isReleased()).toBe(true);
  expect(got).toEqual([]);
  expect(line.isOpen).toBe(false);
});

test('the next line is not opened before the last one has closed, or two seconds have passed', async () => {
  const { time, doors, subscribe, isReleased } = portOf();
  const line = createScriptedLine();
  line.closable = new Promise(() => {});
  const held = subscribe();
  await settled();
  doors[0]!.open(line);
  await settled();
  held.unsubscribe();
  subscribe();
  await time.advance(1.95);
  expect(doors.length).toBe(1);
  expect(await isReleased()).toBe(false);
  await time.advance(0.1);
  expect(doors.length).toBe(2);
});

test('a line that does not open is an error with a name, and the port is free again', async () => {
  const { doors, errors, subscribe, isReleased } = portOf();
  subscribe();
  await settled();
  doors[0]!.fail(new Error('nothing plugged in'));
  expect(await isReleased()).toBe(true);
  expect(errors).toMatchObject([{ problem: { code: 'port-failed' } }]);
  expect(String(errors[0])).toMatch(/nothing plugged in/);
  subscribe();
  await settled();
  expect(doors.length).toBe(2);
});
