import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ProblemError } from '../../../hal/firmata/errors.ts';
import { choosePort, describePort, listPorts } from '../../../hal/firmata/ports.ts';
import { openFailure, openSerialLine } from '../../../hal/firmata/serial-line.ts';

const BUILT_IN = { path: '/dev/ttyS0' };
const ON_USB = { path: '/dev/ttyUSB0', manufacturer: 'demo', vendorId: '1a86' };
const ANOTHER = { path: '/dev/ttyACM3', vendorId: '2341' };

test('the only port that looks like a board is the one', () => {
  expect(choosePort([BUILT_IN, ON_USB].map(describePort))).toEqual({
    ok: true,
    value: ON_USB.path,
  });
});

test('no port, or several, is a problem that lists what was found', () => {
  const none = choosePort([BUILT_IN].map(describePort));
  expect(none).toMatchObject({ ok: false, problem: { code: 'port-none' } });
  expect(none.ok ? '' : none.problem.words).toMatch('/dev/ttyS0');
  const several = choosePort([ON_USB, ANOTHER].map(describePort));
  expect(several).toMatchObject({ ok: false, problem: { code: 'port-several' } });
  expect(several.ok ? '' : several.problem.words).toMatch(
    '/dev/ttyUSB0 (demo, vendor 1a86); /dev/ttyACM3 (vendor 2341)',
  );
});

test('a list of the system becomes ports', async () => {
  const ports = await listPorts(async () => [BUILT_IN, ON_USB]);
  expect(ports.map(({ looksLikeBoard }) => looksLikeBoard)).toEqual([false, true]);
});

test.each([
  ['Error: No such file or directory, cannot open /dev/x', 'port-not-found'],
  ['Error: Permission denied, cannot open /dev/x', 'port-no-permission'],
  ['Error Resource temporarily unavailable Cannot lock port', 'port-busy'],
  ['Error: Inappropriate ioctl for device setting custom baud rate of 57600', 'port-not-serial'],
  ['Error: Is a directory, cannot open /tmp', 'port-not-serial'],
  ['Error: something never seen', 'port-failed'],
])('"%s" is %s', (said, code) => {
  const problem = openFailure('/dev/x', said);
  expect(problem.code).toBe(code);
  expect(problem.words).toMatch('/dev/x: ');
});

const codeOf = async (path: string): Promise<string> =>
  openSerialLine(path).then(
    (line) => new Promise((resolve) => line.close(() => resolve('opened'))),
    (error) => (error instanceof ProblemError ? error.problem.code : String(error)),
  );

test('a real system says so in words that are understood', async () => {
  expect(await codeOf('/dev/no-such-port')).toBe('port-not-found');
  expect(await codeOf(tmpdir())).toBe('port-not-serial');
  expect(await codeOf('/dev/null')).toBe('port-not-serial');
});

const socat = existsSync('/usr/bin/socat');
if (!socat) console.log('no socat here: the test of a port in use is not run');

test.runIf(socat)(
  'a port that is in use is busy, and a write to a port that is gone fails',
  async () => {
    const path = join(mkdtempSync(join(tmpdir(), 'port-')), 'tty');
    const pair = spawn('socat', [`pty,raw,echo=0,link=${path}`, 'pty,raw,echo=0'], {
      stdio: 'ignore',
    });
    while (!existsSync(path)) await new Promise((resolve) => setTimeout(resolve, 10));
    const line = await openSerialLine(path);
    expect(await codeOf(path)).toBe('port-busy');
    line.on('error', () => {});
    const gone = once(pair, 'exit');
    pair.kill();
    await gone;
    // serialport may read the end of a port again and again without telling; a write tells.
    const failure = await new Promise((resolve) => line.write(Buffer.from([0xf9]), resolve));
    expect(String(failure)).toMatch(/EIO/);
    if (line.isOpen) await new Promise((resolve) => line.close(resolve));
    expect(line.isOpen).toBe(false);
  },
);
