/** The options that say which board a command runs on; the same for every command that runs one. */
import { type Command, Option } from 'commander';

/** Boards that are not hardware, with what each is. */
export const MODEL_BOARDS = ['simulated', 'emulated'] as const;
export type ModelBoardKind = (typeof MODEL_BOARDS)[number];

export interface BoardOptions {
  readonly board: ModelBoardKind;
  /** A serial port, or `auto`; a board that is no hardware where none is named. */
  readonly port?: string;
}

/**
 * `modelOnly`: options by name that make no sense on hardware. `usual`: the board where none is named;
 * null where one must be.
 */
export function withBoardOptions(
  command: Command,
  modelOnly: readonly string[],
  usual: ModelBoardKind | null = 'simulated',
): Command {
  const board = new Option('--board <kind>', 'no hardware; emulated: the real firmware runs in it');
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
