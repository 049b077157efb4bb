/** Opens what a procedure runs on: a real board where a port is named, else the simulated one. */
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';
import type { OpenedBench } from './bench.ts';
import { type Crew, type SimulatedOptions, simulatedBench } from './simulated-bench.ts';

export interface BenchOptions extends SimulatedOptions {
  /** A serial port, or `auto`; the simulated board where none is named. */
  readonly port?: string;
}

export async function openBench(
  options: BenchOptions,
  config: RepairConfig,
  crew: Crew | null = null,
): Promise<OpenedBench> {
  const { port } = options;
  if (port === undefined) return simulatedBench(options, config, crew);
  // Loaded only where there is one: serial ports are native code.
  return await (await import('./real-bench.ts')).realBench(port, config);
}
