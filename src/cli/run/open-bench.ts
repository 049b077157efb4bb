/** Opens what a procedure runs on: a real board where a port is named, else one that is no hardware. */
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';
import type { OpenedBench } from './bench.ts';
import type { BoardOptions } from './board-options.ts';
import type { Crew, ModelOptions } from './model-bench.ts';
import { simulatedBench } from './simulated-bench.ts';

export interface BenchOptions extends ModelOptions, BoardOptions {}

/** What only one of them needs is loaded only for it: serial ports are native code. */
export async function openBench(
  options: BenchOptions,
  config: RepairConfig,
  crew: Crew | null = null,
): Promise<OpenedBench> {
  const { board, port } = options;
  if (port !== undefined) return await (await import('./real-bench.ts')).realBench(port, config);
  if (board === 'simulated') return simulatedBench(options, config, crew);
  return await (await import('./emulated-bench.ts')).emulatedBench(options, config, crew);
}
