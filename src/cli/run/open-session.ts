/**
 * Opens a session: on a real board where a port is named, otherwise on a simulated or emulated one.
 */
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';
import type { BoardOptions, ModelBoardKind } from './board-options.ts';
import type { Crew, ModelOptions } from './model-session.ts';
import type { OpenedSession } from './session.ts';
import { simulatedSession } from './simulated-session.ts';

export interface SessionOptions extends ModelOptions, BoardOptions {}

type Open = (
  options: SessionOptions,
  config: RepairConfig,
  crew: Crew | null,
) => OpenedSession | Promise<OpenedSession>;

/** Each kind is loaded only where it is used: serial ports are native code. */
const OPEN: Readonly<Record<ModelBoardKind, Open>> = {
  simulated: simulatedSession,
  emulated: async (...given) => (await import('./emulated-session.ts')).emulatedSession(...given),
};

export async function openSession(
  options: SessionOptions,
  config: RepairConfig,
  crew: Crew | null = null,
): Promise<OpenedSession> {
  const { board, port } = options;
  if (port === undefined) return await OPEN[board](options, config, crew);
  return await (await import('./real-session.ts')).realSession(port, config);
}
