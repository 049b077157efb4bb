/** The options that select the board, the same for every command that runs one. */
import { type Command, Option } from 'commander';

/** Boards that are not hardware, with a description of each. */
export const MODEL_BOARDS = ['simulated', 'emulated'] as const;
export type ModelBoardKind = (typeof MODEL_BOARDS)[number];

export interface BoardOptions {
  readonly board: ModelBoardKind;
  /** A serial port, or `auto`; where none is named, a board that is not hardware. */
  readonly port?: string;
}

/**
 * `modelOnly`: names of options that make no sense on hardware. `usual`: the default board; null
 * where one must be named.
 */
export function withBoardOptions(
  command: Command,
  modelOnly: readonly string[],
  usual: ModelBoardKind | null = 'simulated',
): Command {
  const board = new Option(
    '--board <kind>',
    'a board without hardware; emulated runs the real firmware',
  );
  board.choices(MODEL_BOARDS);
  if (usual !== null) board.default(usual);
  return command
    .addOption(
      new Option('--port <name>', 'a real board: its serial port, or auto').conflicts([
        'board',
        ...modelOnly,
      ]),
    )
    .addOption(board);
}
