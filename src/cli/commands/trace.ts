import { createHash } from 'node:crypto';
import { closeSync, openSync, writeSync } from 'node:fs';
import { Command } from 'commander';
import { BadInput, type Problem } from '../../base/problem.ts';
import { readQuantity } from '../../base/quantity.ts';
import { DiskSource } from '../../bundle/disk-source.ts';
import { onDisk } from '../../disk/on-disk.ts';
import { Part } from '../../disk/part.ts';
import { refuseExisting } from '../../disk/write-file.ts';
import { type Anonymous, anonymous } from '../../loads/recorded/anonymous.ts';
import { cleanedPieces } from '../../loads/recorded/cleaned-csv.ts';
import { knownHow } from '../../loads/recorded/known-how.ts';
import type { RecordedLoad } from '../../loads/recorded/recorded-load.ts';
import type { StatedPlace } from '../../loads/recorded/stated-place.ts';
import type { QualityStatement } from '../../loads/recorded/statement.ts';
import { statementText } from '../../loads/recorded/statement-text.ts';
import { sideProblems } from '../../request/place-problems.ts';
import { readLoad } from '../../request/read-load.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';
import { listed } from '../../scenario/text/nearest.ts';
import { quoted } from '../../studies/trials/replay.ts';
import { refusePrecious } from '../disk/refuse-precious.ts';
import { optionWords } from '../options/again.ts';
import { addReadingOptions, assumedOf, type ReadingOptions, readingOf } from '../options/reading-options.ts';
import { readingRules } from '../options/rules/reading-rules.ts';
import { needs, type OptionRule, onDiskAlone, ruled } from '../options/rules/rule.ts';
import { forceOption, jsonOption } from '../options/shared-options.ts';
import { withReadingLine } from '../terminal/reading-line.ts';

interface TraceOptions extends ReadingOptions {
  readonly json?: boolean;
  readonly out?: string;
  readonly force?: boolean;
  readonly quiet?: boolean;
  readonly anonymise?: boolean;
  readonly seed?: string;
  readonly scaleTo?: string;
}

const rules: readonly OptionRule[] = [
  ...readingRules,
  onDiskAlone('--out'),
  needs('--force', ['--out'], 'a file that it may overwrite', 'add --out FILE, or leave it out'),
  needs('--anonymise', ['--out'], 'a file to write', 'add --out FILE'),
  needs('--seed', ['--anonymise'], 'names to be left out', 'add --anonymise'),
  needs('--scale-to', ['--anonymise'], 'names to be left out', 'add --anonymise'),
];

/** `trace FILE`: the quality statement of a recorded load on stdout, a cleaned file where asked for. */
export function traceCommand(): Command {
  const command = new Command('trace').argument(
    '<file>',
    'recorded load as delimited text, JSON lines or Parquet; - reads stdin',
  );
  addReadingOptions(command)
    .option('-o, --out <file>', 'write the cleaned recording')
    .addOption(forceOption('a file'))
    .option('--anonymise', 'with --out: leave out names, date, comments and other columns')
    .option('--seed <n>', 'with --anonymise: draws the order of the channels (default: 1)')
    .option('--scale-to <power>', 'with --anonymise: what the highest power becomes, for example "1 kW"')
    .option('-q, --quiet', 'leave out the next step')
    .addOption(jsonOption())
    .addHelpText('before', 'Example: buswake trace load.csv --power power_W --json\n')
    .action((file: string, options: TraceOptions, command: Command) => {
      const reading = readingOf(options);
      const show = showing(options);
      const load = withReadingLine((onProgress) => readLoad(new DiskSource(), file, reading, onProgress));
      const { place } = load.statement;
      // What no name says is left open here, and asked for by a replay.
      const wrong = place.side === null ? [] : sideProblems(place, { reading, assumed: assumedOf(options) });
      if (wrong.length > 0) throw new BadInput(wrong.map((problem) => ({ ...problem, file })));
      if (options.out !== undefined) {
        refusePrecious([options.out], [file]);
        const shown = show(load);
        const how = knownHow(shown.load.statement, reading, assumedOf(options));
        const sha256 = writeCleaned(options.out, cleanedPieces(shown.load, how), options.force === true);
        process.stderr.write(`cleaned recording: ${options.out}, SHA-256 ${sha256}\n`);
        for (const change of shown.changes) process.stderr.write(`Anonymised: ${change}.\n`);
      }
      const text =
        options.json === true
          ? JSON.stringify(documentOf(load, reading), null, 2)
          : [
              statementText(load.statement),
              ...openQuestions(load.statement, options),
              ...(file === '-' || options.quiet === true
                ? []
                : [`next  replay it: ${replay(command, file, load.statement.place)}`]),
            ].join('\n');
      process.stdout.write(`${text}\n`);
    });
  return ruled(command, rules);
}

/** What `trace --json` prints. */
export interface TraceDocument extends QualityStatement {
  readonly schema_version: number;
  /** How the recording was read. */
  readonly reading: RecordedReading;
}

/** The command that replays the recording, read as it was here, with a blank for what a replay asks and nothing says. */
function replay(command: Command, file: string, place: StatedPlace): string {
  const { side, at } = command.opts<TraceOptions>();
  const open = openPlace(place, side, at);
  return [
    'buswake run pulse-train --load',
    quoted(file),
    ...optionWords(command, ['anonymise', 'seed', 'scaleTo']),
    // Behind a power supply the load is no longer what the devices draw: a replay must be told that this is meant.
    ...(side === 'ac' ? ['--accept-ac'] : []),
    ...open.map(({ option, blank }) => `${option} ${blank}`),
    '--copies 1',
  ]
    .join(' ')
    .concat(...open.map(({ blank, values }) => `, ${blank} being ${listed(values)}`));
}

interface OpenPlace {
  readonly what: string;
  readonly option: string;
  /** What stands for its value in a command, and which it may be. */
  readonly blank: string;
  readonly values: readonly string[];
}

/** Where it was taken, as far as neither the file nor an option says it. */
function openPlace(
  place: StatedPlace,
  side: TraceOptions['side'],
  at: TraceOptions['at'],
): readonly OpenPlace[] {
  return [
    ...(side === undefined && place.side === null
      ? [{ what: 'side of the power supply', option: '--side', blank: 'SIDE', values: ['dc', 'ac'] }]
      : []),
    ...(at === undefined && place.at === null
      ? [{ what: 'place', option: '--at', blank: 'PLACE', values: ['device', 'sled', 'rack'] }]
      : []),
  ];
}

function documentOf({ statement }: RecordedLoad, reading: RecordedReading): TraceDocument {
  return { schema_version: 1, ...statement, reading };
}

/** What a replay will ask for, a line each. */
function openQuestions(
  { place, how }: QualityStatement,
  { side, at, averaging = how.averaging_s ?? undefined, samples = how.samples ?? undefined }: TraceOptions,
): string[] {
  return [
    ...openPlace(place, side, at).map(
      ({ what, option, values }) => `${what} (${listed(values.map((value) => `${option} ${value}`))})`,
    ),
    ...(averaging === undefined && samples === undefined
      ? [
          'whether samples are means or instants; means over one interval are assumed (--samples means, --samples instants, or --averaging TIME of a longer one)',
        ]
      : []),
  ].map((what) => `Not stated: ${what}.`);
}

/** What is written: the recording as it is, or without what names its owner. */
function showing(options: TraceOptions): (load: RecordedLoad) => Anonymous {
  const problems: Problem[] = [];
  const refuse = (file: string, found: string, expected: string, mend: string): void => {
    problems.push({ severity: 'error', file, found, expected, mend });
  };
  const isOn = options.anonymise === true;
  const seed = options.seed ?? '1';
  if (!/^\d{1,9}$/.test(seed)) refuse('--seed', seed, 'a whole number', 'write it like 1');
  let peak_W: number | null = null;
  if (options.scaleTo !== undefined) {
    const read = readQuantity(options.scaleTo, 'power');
    if (!read.ok) refuse('--scale-to', read.found, read.expected, read.mend);
    else if (!(read.value > 0))
      refuse('--scale-to', options.scaleTo, 'a power above zero', 'write it like 1 kW');
    else peak_W = read.value;
  }
  if (problems.length > 0) throw new BadInput(problems);
  return isOn ? (load) => anonymous(load, Number(seed), peak_W) : (load) => ({ load, changes: [] });
}

/** Whole or not at all: written beside, then renamed. Returns the SHA-256 of what was written. */
function writeCleaned(path: string, pieces: Iterable<string>, force: boolean): string {
  const sum = createHash('sha256');
  refuseExisting([path], force);
  const part = new Part(path, 'file', { force });
  try {
    onDisk(path, () => {
      const file = openSync(part.path, 'w');
      try {
        for (const text of pieces) {
          writeSync(file, text);
          sum.update(text);
        }
      } finally {
        closeSync(file);
      }
    });
    part.keep();
    return sum.digest('hex');
  } finally {
    part.drop();
  }
}
