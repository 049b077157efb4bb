import { expect, test } from 'vitest';
import { openStockBoard, UNLOCK_WORDS } from '../../../hal/firmata/stock-board.ts';
import { awaiting } from './desk.ts';
import { createScriptedLine, OURS, type Script } from './scripted-firmware.ts';
import { createVirtualTime } from './virtual-time.ts';

const STOCK: Script = { ...OURS, name: 'StandardFirmata.ino', major: 2 };
const PUMP = 9;
const LAMP_ENABLE = 8;

async function openOn(script: Script) {
  const clock = createVirtualTime();
  const line = createScriptedLine(script);
  const notices: string[] = [];
  const opened = await awaiting(
    clock,
    openStockBoard({
      openLine: async () => line,
      scheduler: clock.scheduler,
      onNotice: (words) => notices.push(words),
    }),
  );
  return { clock, line, opened, notices };
}

async function stock() {
  const { clock, line, opened, notices } = await openOn(STOCK);
  if (!opened.ok) throw new Error(opened.problem.words);
  const modesSet = () => line.heard.filter(([first]) => first === 0xf4).map(([, pin]) => pin);
  /** Duties sent to a pin. */
  const duties = (pin: number) =>
    line.heard
      .filter(([first]) => first === (0xe0 | pin))
      .map(([, low = 0, high = 0]) => low + high * 128);
  return { clock, line, notices, board: opened.board, modesSet, duties };
}

test('a stock firmware is good enough for wiring tests, and says its name', async () => {
  const { board, clock } = await stock();
  expect(board.firmware).toEqual({ name: 'StandardFirmata.ino', major: 2, minor: 0 });
  await awaiting(clock, board.close());
  expect(clock.timers()).toBe(0);
});

test('a device that speaks no Firmata is not, and the problem says what came', async () => {
  const { opened, line, clock } = await openOn({ ...STOCK, noise: [] });
  expect(line.isOpen).toBe(false);
  expect(clock.timers()).toBe(0);
  expect(opened).toMatchObject({ ok: false, problem: { code: 'not-firmata' } });
  expect(opened.ok ? '' : opened.problem.words).toMatch(/Nothing came at all/);
});

test.each(['', 'yes', UNLOCK_WORDS.toUpperCase(), `${UNLOCK_WORDS} `])(
  'pump, valves and lamp stay locked to "%s", and the refusal says why',
  async (words) => {
    const { board, clock, modesSet } = await stock();
    const answer = board.unlock(words);
    expect(answer.ok).toBe(false);
    expect(answer.ok ? '' : answer.why).toMatch(/keeps its outputs when the host dies/);
    expect(modesSet().filter((pin = 0) => pin >= 6 && pin <= 10)).toEqual([]);
    await awaiting(clock, board.close());
  },
);

test('the exact words unlock; a ratio that is none is no drive; closing drives all low', async () => {
  const { board, clock, line, duties, modesSet } = await stock();
  const answer = board.unlock(UNLOCK_WORDS);
  if (!answer.ok) throw new Error(answer.why);
  expect(modesSet()).toEqual(expect.arrayContaining([6, 7, 8, 9, 10]));
  answer.drives.duty('pumpDrive', 0.5);
  answer.drives.duty('pumpDrive', Number.NaN);
  answer.drives.duty('pumpDrive', 0.2);
  answer.drives.level('lampEnable', true);
  await awaiting(clock, board.close());
  expect(duties(PUMP)).toEqual([0, 128, 0, 51, 0]);
  const port = line.heard.filter(([first]) => first === 0x91).map(([, low = 0]) => low);
  expect(port.map((levels) => (levels >> (LAMP_ENABLE - 8)) & 1).slice(-2)).toEqual([1, 0]);
});

test('counts are the latest that came, and none when nothing came for a second', async () => {
  const { board, clock, line } = await stock();
  expect(board.counts().pressure).toBeNull();
  line.sends([0xe0, 0x36, 0x02]);
  expect(board.counts().pressure).toBe(310);
  await clock.advance(1.1);
  expect(board.counts().pressure).toBeNull();
  await awaiting(clock, board.close());
});

test('a lost line is told once, and asking for a lamp then does no harm', async () => {
  const { board, clock, line, notices } = await stock();
  line.breaks('close');
  line.breaks('error');
  expect(notices).toEqual([
    expect.stringMatching(/The link to the board is lost.*The line closed/),
  ]);
  const before = line.heard.length;
  board.signal('statusRed', true);
  await awaiting(clock, board.close());
  expect(line.heard.length).toBe(before);
  expect(clock.timers()).toBe(0);
});
