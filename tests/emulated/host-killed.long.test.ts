/** A host that dies without a word leaves a unit that makes itself safe. */
import { once } from 'node:events';
import { describe, expect, test } from 'vitest';
import { createChance } from '../../sim/random.ts';
import type { Actuators } from '../../src/core/frame.ts';
import { type RunningEmulator, startEmulator } from '../sim/emulator/emulator-launcher.ts';
import { scenarioOf } from '../sim/emulator/scenarios.ts';
import { bundled, startNode } from './bundled.ts';
import { whyNoPty } from './pty-board.ts';

const skip = whyNoPty();
if (skip !== null) console.warn(`killing the host ${skip}`);

const TRIALS = 30;
const SAFE_WITHIN_S = 0.6;

interface State {
  readonly timeS: number;
  readonly hostHeardS: number;
  readonly pinsSafeSinceS: number | null;
  readonly pins: Actuators;
}

async function stateOf(emulator: RunningEmulator): Promise<State> {
  const state = emulator.next('state');
  emulator.command('report');
  return (await state) as unknown as State;
}

/** Board time from the last that was heard of the host until the pins were safe. */
async function killAt(
  emulator: RunningEmulator,
  hostFile: string,
  what: 'pump' | 'lamp',
  afterMs: number,
): Promise<number> {
  const host = startNode(hostFile, [emulator.link, what]);
  if (host.stdout === null) throw new Error('the host has no output');
  await once(host.stdout, 'data');
  await new Promise((resolve) => setTimeout(resolve, afterMs));
  const before = await stateOf(emulator);
  expect(what === 'pump' ? before.pins.pumpRatio : before.pins.lampRatio).toBe(0.4);
  host.kill('SIGKILL');
  await once(host, 'close');
  for (;;) {
    const { timeS, hostHeardS, pinsSafeSinceS } = await stateOf(emulator);
    if (pinsSafeSinceS !== null) return pinsSafeSinceS - hostHeardS;
    if (timeS - before.timeS > 5) throw new Error('still driving after 5 s');
  }
}

describe.skipIf(skip !== null)('a host killed at a random moment', () => {
  test(`leaves pump, vent and lamp safe within ${SAFE_WITHIN_S} s of board time, every time`, async () => {
    const hostFile = await bundled(new URL('host-process.ts', import.meta.url), 'host');
    const chance = createChance(3, 'noise');
    const trials = Array.from({ length: TRIALS }, (_, n) => ({
      what: n % 2 === 0 ? ('pump' as const) : ('lamp' as const),
      afterMs: 400 * chance.uniform(),
    }));
    const tookS: number[] = [];
    const benches = 2;
    const work = async (own: number): Promise<void> => {
      const emulator = await startEmulator({ scenario: scenarioOf(), pace: { timesReal: 1 } });
      emulator.command('shield');
      for (const { what, afterMs } of trials.filter((_, n) => n % benches === own)) {
        tookS.push(await killAt(emulator, hostFile, what, afterMs));
      }
      await emulator.stop();
    };
    await Promise.all(Array.from({ length: benches }, (_, own) => work(own)));
    const sorted = tookS.toSorted((a, b) => a - b);
    console.info(
      `host killed ${sorted.length} times: safe after ${sorted[0]?.toFixed(3)} to ${sorted.at(-1)?.toFixed(3)} s of board time`,
    );
    expect(sorted).toHaveLength(TRIALS);
    expect(sorted.at(-1)).toBeLessThanOrEqual(SAFE_WITHIN_S);
    // Not at once either: it is the lease that ends, not the line that is seen to close.
    expect(sorted[0]).toBeGreaterThan(0.3);
  });
});
