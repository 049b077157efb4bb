/**
 * Reaction of the whole loop: from a change of the pressure counts on the emulated board to the
 * response of its pump pin, over a pseudo-terminal at 20 ms sampling and real time, with the host
 * in its own process. It is printed beside the time of the serial line alone.
 */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { BAUD, FRAME_LAYOUT, OUTPUTS_LAYOUT } from '../../hal/firmata/protocol.ts';
import { createEmulatedBench } from '../../sim/emulator/emulated-bench.ts';
import { loadImage } from '../../sim/emulator/image.ts';
import { createChance } from '../../sim/random.ts';
import { bundled, startNode } from '../emulated/bundled.ts';
import { scenarioOf } from '../sim/emulator/scenarios.ts';

const TICK_S = 0.02;
const SAMPLES = 300;
const BORDER = 300;
const LOW = 250;
const HIGH = 350;
const MOST_INTERVALS = 1.5;
/** Start, command, kind and check around the fields, and the end. */
const AROUND_BYTES = 7;
const BITS_PER_BYTE = 10;

const bytesOf = (layout: readonly (readonly [string, number])[]): number =>
  AROUND_BYTES + layout.reduce((sum, [, bytes]) => sum + bytes, 0);
const lineMs = (bytes: number): number => (1000 * bytes * BITS_PER_BYTE) / BAUD;
const pause = (ms: number): Promise<void> =>
  new Promise((resolve) => (ms < 1 ? setImmediate(resolve) : setTimeout(resolve, ms)));

test('the pump pin follows the pressure within one and a half sampling intervals, 99 times of 100', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'meniscus-loop-'));
  const link = join(folder, 'board');
  const image = loadImage(
    readFileSync(new URL('../../hal/firmware/image/meniscus.hex', import.meta.url), 'utf8'),
  );
  const bench = createEmulatedBench({ image, scenario: scenarioOf({ tickS: TICK_S }) });
  const socat = spawn('socat', [`pty,raw,echo=0,link=${link}`, 'STDIO'], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  bench.onHostBytes((bytes) => socat.stdin.write(bytes));
  socat.stdout.on('data', (bytes) => bench.cable.fromHost(bytes));
  while (!existsSync(link)) await pause(5);
  const host = startNode(
    await bundled(new URL('reacting-host.ts', import.meta.url), 'reacting-host'),
    [link, String(TICK_S), String(BORDER)],
  );

  const chance = createChance(1, 'noise');
  const tookMs: number[] = [];
  let high = false;
  let changedS = Number.NaN;
  let nextChangeS = 3;
  bench.holdCounts('pressure', LOW);
  const startMs = performance.now() - 1000 * bench.timeS();
  let worstLagMs = 0;
  while (tookMs.length < SAMPLES && bench.timeS() < 300) {
    bench.advance(0.001);
    const timeS = bench.timeS();
    if (!Number.isNaN(changedS) && bench.pins().pumpRatio > 0 === high) {
      tookMs.push(1000 * (timeS - changedS));
      changedS = Number.NaN;
      nextChangeS = timeS + 0.15 + 0.1 * chance.uniform();
    } else if (Number.isNaN(changedS) && timeS >= nextChangeS) {
      high = !high;
      bench.holdCounts('pressure', high ? HIGH : LOW);
      changedS = timeS;
    }
    const aheadMs = startMs + 1000 * timeS - performance.now();
    worstLagMs = Math.max(worstLagMs, -aheadMs);
    await pause(Math.max(0, aheadMs));
  }
  host.kill();
  socat.kill();
  rmSync(folder, { recursive: true, force: true });

  const sorted = tookMs.toSorted((a, b) => a - b);
  const at = (share: number): number =>
    sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
  const [frameBytes, outputsBytes] = [bytesOf(FRAME_LAYOUT), bytesOf(OUTPUTS_LAYOUT)];
  const wireMs = lineMs(frameBytes) + lineMs(outputsBytes);
  console.info(
    [
      `reaction, ${sorted.length} changes at ${1000 * TICK_S} ms sampling: p50 ${at(0.5).toFixed(1)}, p99 ${at(0.99).toFixed(1)}, longest ${at(1).toFixed(1)} ms`,
      `limit: p99 at most ${(MOST_INTERVALS * 1000 * TICK_S).toFixed(1)} ms`,
      `the line alone: frame ${frameBytes} bytes ${lineMs(frameBytes).toFixed(1)} ms, outputs ${outputsBytes} bytes ${lineMs(outputsBytes).toFixed(1)} ms, together ${wireMs.toFixed(1)} ms; waiting for the next sample 0 to ${1000 * TICK_S} ms`,
      `the emulator was behind real time by ${worstLagMs.toFixed(1)} ms at most`,
    ].join('\n'),
  );
  expect(sorted).toHaveLength(SAMPLES);
  expect(at(0.99)).toBeLessThanOrEqual(MOST_INTERVALS * 1000 * TICK_S);
});
