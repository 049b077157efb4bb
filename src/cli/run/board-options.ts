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

/** `modelOnly`: options by name that make no sense on hardware. */
export const withBoardOptions = (command: Command, modelOnly: readonly string[]): Command =>
  command
    .addOption(
      new Option('--port <name>', 'a real board: its serial port, or auto').conflicts([
        'board',
        ...modelOnly,
      ]),
    )
    .addOption(
      new Option('--board <kind>', 'without a port; emulated: the real firmware runs in it')
        .choices(MODEL_BOARDS)
        .default('simulated'),
    );
