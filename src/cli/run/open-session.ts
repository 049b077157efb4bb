/**
 * Opens a session: on a real board where a port is named, otherwise on a simulated or emulated one.
 */
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';
import type { BoardOptions } from './board-options.ts';
import type { Crew, ModelOptions } from './model-session.ts';
import type { OpenedSession } from './session.ts';
import { simulatedSession } from './simulated-session.ts';

export interface SessionOptions extends ModelOptions, BoardOptions {}

/** Each kind is loaded only where it is used: serial ports are native code. */
export async function openSession(
  options: SessionOptions,
  config: RepairConfig,
  crew: Crew | null = null,
): Promise<OpenedSession> {
  const { board, port } = options;
  if (port !== undefined)
    return await (await import('./real-session.ts')).realSession(port, config);
  if (board === 'simulated') return simulatedSession(options, config, crew);
  return await (await import('./emulated-session.ts')).emulatedSession(options, config, crew);
}
