/**
 * `meniscus records export`: repairs as a table in CSV, JSON Lines or Parquet; memory use stays
 * flat.
 */
import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs';
import { type Command, Option } from 'commander';
import { namedFileProblem, writeNamedBy } from '../../app/papers/named-file.ts';
import { problemLine, type SettingsProblem } from '../../core/settings.ts';
import { exportColumns } from '../../store/export/export-columns.ts';
import type { RecordsStore } from '../../store/records-store.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { complain, type RecordsOptions, withRecords } from '../terminal/open-records.ts';
import { createProgress, type Progress } from '../terminal/progress.ts';
import { addFilterOptions, contradiction, type FilterOptions, filterOf } from './records-filter.ts';

const FORMATS = ['csv', 'jsonl', 'parquet'] as const;

interface ExportOptions extends FilterOptions, RecordsOptions {
  readonly format: (typeof FORMATS)[number];
  readonly out?: string;
  readonly withPersonal: boolean;
  readonly force: boolean;
}

export function addExport(records: Command): void {
  addFilterOptions(records.command('export').description('repairs as a table for other programs'))
    .addOption(new Option('--format <name>', 'format of the table').choices(FORMATS).default('csv'))
    .option('--out <file>', 'output file (csv and jsonl default to standard output)')
    .option('--force', 'write even among records, or over an existing file', false)
    .option(
      '--with-personal',
      'include technician, vehicle and customer where they are kept',
      false,
    )
    .addHelpText(
      'after',
      '\nExample: meniscus records export --format parquet --out repairs.parquet\n',
    )
    .action(async (_, command: Command) => {
      process.exitCode = await exportRecords(command.optsWithGlobals<ExportOptions>());
    });
}

type Repairs = ReturnType<RecordsStore['each']>;
type Write = (repairs: Repairs) => void;

async function exportRecords(options: ExportOptions): Promise<number> {
  const filter = filterOf(options);
  if (filter === null) {
    complain([contradiction(options)]);
    return EXIT.badInput;
  }
  const write = await writerOf(options);
  if (write === null) {
    complain(['--out is missing; accepted: a file, which --format parquet needs']);
    return EXIT.badInput;
  }
  const taken = options.out === undefined ? null : outProblem(options.out, options);
  if (taken !== null) {
    complain([problemLine(taken)]);
    return EXIT.badInput;
  }
  return withRecords(options.records, 'read', (store) => {
    try {
      const progress = createProgress('exporting records', store.head().seq);
      const repairs = store.each(filter);
      // On standard output the table itself shows the progress.
      write(options.out === undefined ? repairs : counted(repairs, progress));
      progress.clear();
      return EXIT.completed;
    } catch (error) {
      return unwritten(error, options.out ?? 'standard output');
    }
  });
}

function* counted(repairs: Repairs, progress: Progress): Repairs {
  for (const repair of repairs) {
    yield repair;
    progress.step();
  }
}

async function writerOf({ format, out, withPersonal }: ExportOptions): Promise<Write | null> {
  const columns = exportColumns(withPersonal);
  if (format === 'parquet') {
    if (out === undefined) return null;
    const { writeParquet } = await import('../../store/export/export-parquet.ts');
    return (repairs) => writeNamedBy(out, (path) => writeParquet(path, repairs, columns));
  }
  const { csvPieces, jsonPieces } = await import('../../store/export/export-text.ts');
  const pieces = format === 'csv' ? csvPieces : jsonPieces;
  return out === undefined
    ? (repairs) => writePieces(STANDARD_OUTPUT, pieces(repairs, columns))
    : (repairs) => writeNamedBy(out, (path) => writeTextFile(path, pieces(repairs, columns)));
}

/** A reader that took what it wanted and closed the pipe is no error. */
function unwritten(error: unknown, file: string): number {
  if (!(error instanceof Error && 'syscall' in error && 'code' in error)) throw error;
  if (error.code === 'EPIPE') return EXIT.completed;
  const value = `not writable (${error.message})`;
  complain([problemLine({ file, path: '', value, accepted: 'a file that can be written' })]);
  return EXIT.badInput;
}

const outProblem = (out: string, { records, force }: ExportOptions): SettingsProblem | null =>
  namedFileProblem(out, {
    option: '--out',
    records,
    force,
    accepted:
      'a new file outside the records; with --force any file except chains, journals and the like',
  });

const STANDARD_OUTPUT = 1;

/**
 * Writes straight to the file, piece by piece: a stream would buffer what its reader has not taken
 * yet.
 */
function writePieces(file: number, pieces: Iterable<string>): void {
  for (const piece of pieces) writeAll(file, Buffer.from(piece, 'utf8'));
}

function writeTextFile(path: string, pieces: Iterable<string>): void {
  const file = openSync(path, 'w');
  try {
    writePieces(file, pieces);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

function writeAll(file: number, bytes: Buffer): void {
  for (let done = 0; done < bytes.length; ) {
    try {
      done += writeSync(file, bytes, done);
    } catch (error) {
      // The pipe is full for the moment; its reader will continue.
      if (!(error instanceof Error && 'code' in error && error.code === 'EAGAIN')) throw error;
    }
  }
}
