/** Opens a session: on a real board where a port is named, otherwise on the simulated one. */
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';
import type { OpenedSession } from './session.ts';
import { type Crew, type SimulatedOptions, simulatedSession } from './simulated-session.ts';

export interface SessionOptions extends SimulatedOptions {
  /** A serial port, or `auto`; the simulated board where none is named. */
  readonly port?: string;
}

export async function openSession(
  options: SessionOptions,
  config: RepairConfig,
  crew: Crew | null = null,
): Promise<OpenedSession> {
  const { port } = options;
  if (port === undefined) return simulatedSession(options, config, crew);
  // Loaded only where there is one: serial ports are native code.
  return await (await import('./real-session.ts')).realSession(port, config);
}
