import { closeSync, existsSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { Command } from 'commander';
import { cleanedPieces } from '../loads/recorded/cleaned-csv.ts';
import { statementText } from '../loads/recorded/statement-text.ts';
import { BadInput } from '../problem.ts';
import { readRecording } from './read-recording.ts';
import { ReadingLine } from './reading-line.ts';
import { addReadingOptions, type ReadingOptions, readingOf } from './reading-options.ts';

interface TraceOptions extends ReadingOptions {
  readonly json?: boolean;
  readonly out?: string;
  readonly force?: boolean;
}

/** `trace FILE`: the quality statement of a recorded load on stdout, a cleaned file where asked for. */
export function traceCommand(): Command {
  const command = new Command('trace')
    .description('read a recorded load, print its quality statement, write a cleaned one')
    .argument('<file>', 'recorded load as delimited text; - reads stdin');
  return addReadingOptions(command)
    .option('-o, --out <file>', 'write the cleaned recording')
    .option('--force', 'overwrite the file of --out')
    .option('--json', 'print the statement as one JSON document')
    .addHelpText('before', 'Example: buswake trace load.csv --power power_W --json\n')
    .action((file: string, options: TraceOptions) => {
      const reading = readingOf(options);
      const line = new ReadingLine(file);
      const load = readRecording(file, reading, (rows, fraction) => line.at(rows, fraction));
      line.clear();
      if (options.out !== undefined) {
        writeCleaned(options.out, cleanedPieces(load), options.force === true);
        process.stderr.write(`cleaned recording: ${options.out}\n`);
      }
      const text =
        options.json === true
          ? JSON.stringify({ schema_version: 1, ...load.statement, reading }, null, 2)
          : statementText(load.statement);
      process.stdout.write(`${text}\n`);
    });
}

/** Whole or not at all: written beside, then renamed. */
function writeCleaned(path: string, pieces: Iterable<string>, force: boolean): void {
  if (existsSync(path) && !force) {
    throw new BadInput([
      {
        severity: 'error',
        file: path,
        found: 'a file that is already there',
        expected: 'a new name',
        mend: 'give --force to overwrite it, or another --out',
      },
    ]);
  }
  const beside = `${path}.part`;
  try {
    const file = openSync(beside, 'w');
    try {
      for (const text of pieces) writeSync(file, text);
    } finally {
      closeSync(file);
    }
    renameSync(beside, path);
  } catch (error) {
    rmSync(beside, { force: true });
    const why = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
    throw new BadInput([
      {
        severity: 'error',
        file: path,
        found: `a place that cannot be written (${why})`,
        expected: 'a file in a folder that exists',
        mend: 'make the folder, or give another --out',
      },
    ]);
  }
}
