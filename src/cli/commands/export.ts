/** `buswake export`: what a kept run or study holds, or every step of the run made again, for other programs. */
import { existsSync, mkdirSync, readdirSync } from 'node:fs';
import { Command, Option } from 'commander';
import { counted } from '../../base/counted.ts';
import { BadInput } from '../../base/problem.ts';
import { formatQuantity, readQuantity } from '../../base/quantity.ts';
import { decodeBundle } from '../../bundle/decode.ts';
import { readBundleFiles } from '../../bundle/read.ts';
import { onDisk } from '../../disk/on-disk.ts';
import { Part } from '../../disk/part.ts';
import { channelWords, chooseSeries } from '../../export/choose-series.ts';
import { pollTables } from '../../export/poll-tables.ts';
import { responseTables } from '../../export/response-tables.ts';
import { type ExportStretch, rowsWithin } from '../../export/stretch.ts';
import { tablesOfStudy } from '../../export/study/tables-of-study.ts';
import { type ExportTable, type TableForm, tableForms } from '../../export/table.ts';
import { namesIn, tablesOf } from '../../export/tables-of-result.ts';
import { writeTable } from '../../export/write-table.ts';
import { stepsAgain } from '../apart/steps-again.ts';
import { jsonText, studyReportName } from '../disk/study-files.ts';
import { isStudyDir } from '../disk/study-folder.ts';
import { refuseChangedStudy } from '../disk/study-whole.ts';
import { exit } from '../exit.ts';
import { excludes, type OptionRule, onDiskAlone, ruled } from '../options/rules/rule.ts';
import { paceRules } from '../options/rules/waveform-rules.ts';
import { forceOption, jsonOption } from '../options/shared-options.ts';
import { addPaceOptions, askedPace, type PaceOptions } from '../options/waveform-options.ts';

export interface ExportOptions extends PaceOptions {
  readonly out: string;
  readonly form: TableForm;
  readonly everyStep?: boolean;
  readonly from?: string;
  readonly to?: string;
  readonly force?: boolean;
  readonly quiet?: boolean;
  readonly json?: boolean;
}

const examples = `Examples:
  buswake export out/run --out out/tables
  buswake export out/run --out out/steps --every-step --channels "F1.ac_power_W,*.voltage_V" --form parquet
  buswake export out/trays --out out/tables
`;

const rules: readonly OptionRule[] = [
  ...paceRules,
  onDiskAlone('--out'),
  excludes('--rate', '--every-step', 'rows at a rate, or one a step'),
];

/** `export DIR`: exit code 4 where the run made again is not the kept one. */
export function exportCommand(): Command {
  const command = new Command('export')
    .argument('<dir>', 'directory that `run --out` or a study wrote')
    .requiredOption('-o, --out <dir>', 'write the tables there')
    .addOption(new Option('--form <form>', 'how').choices([...tableForms]).default('csv'))
    .option('--every-step', 'run it again as verify does, and write the values at the end of every step');
  addPaceOptions(command)
    .option('--from <time>', 'leave out what lies before that time of the run, for example "1.5 s"')
    .option('--to <time>', 'leave out what lies after it')
    .addOption(forceOption('tables that were exported there'))
    .option('-q, --quiet', 'print nothing')
    .addOption(jsonOption())
    .addHelpText('before', examples)
    .action(exportTo);
  return ruled(command, rules);
}

async function exportTo(dir: string, options: ExportOptions): Promise<void> {
  refuseTaken(options);
  const part = new Part(options.out, 'folder', { force: options.force === true });
  try {
    onDisk(options.out, () => mkdirSync(part.path));
    const told = isStudyDir(dir)
      ? writeAll(part.path, options.form, studyTables(dir, options))
      : await exportRun(dir, part.path, options);
    if (told === null) {
      process.exitCode = exit.stopped;
      process.stderr.write('Stopped; nothing was written.\n');
      return;
    }
    // Again: what came to lie there meanwhile is nobody's to remove.
    refuseTaken(options);
    part.keep();
    if (options.json === true) process.stdout.write(jsonText(documentOf(options, told)));
    else if (options.quiet !== true)
      process.stdout.write(`${told.map((line) => `${options.out}/${line}\n`).join('')}`);
  } finally {
    part.drop();
  }
}

function studyTables(dir: string, options: ExportOptions): readonly ExportTable[] {
  const { channels, everyStep, rate, from, to } = options;
  if (everyStep === true || (channels ?? rate ?? from ?? to) !== undefined)
    refuse(dir, 'a study', 'a kept run, which has channels and steps', 'export it without these options');
  refuseChangedStudy(dir);
  return tablesOfStudy(dir, studyReportName);
}

/** What `export --json` prints. */
export interface ExportDocument {
  readonly schema_version: number;
  /** The folder that holds the tables. */
  readonly out: string;
  readonly form: TableForm;
  /** Each table: its file in that folder, and how many rows and columns it has. */
  readonly tables: readonly { readonly file: string; readonly holds: string }[];
}

/** `told`: one line a table, its file before the colon. */
function documentOf({ out, form }: ExportOptions, told: readonly string[]): ExportDocument {
  const tables = told.map((line) => {
    const cut = line.indexOf(': ');
    return { file: line.slice(0, cut), holds: line.slice(cut + 2) };
  });
  return { schema_version: 1, out, form, tables };
}

/** What the bundle keeps; with `--every-step` or a rate also the rows of the run made again. Null where it was stopped. */
async function exportRun(
  dir: string,
  folder: string,
  options: ExportOptions,
): Promise<readonly string[] | null> {
  const files = readBundleFiles(dir);
  const { report, result, scenario, provenance } = decodeBundle(files.manifest, files.files);
  const pace = askedPace(options, scenario);
  const again = options.everyStep === true || pace.kind === 'rate';
  const stretch = askedStretch(options);
  const ended_s = result.recording.edges_s.at(-1) ?? 0;
  refuseBeyond(stretch, ended_s);
  if (again) {
    const ran = await stepsAgain({ files, provenance, pace, stretch, folder, options });
    if (ran?.rows === 0) refuseEmpty(stretch);
    if (ran !== null && !ran.same) process.exitCode = exit.failed;
    return ran?.lines ?? null;
  }
  const names = namesIn(result).map((id) => ({ id }));
  const { channels } = options;
  const chosen = channels === undefined ? names : chooseSeries(names, channelWords(channels));
  const wanted = new Set(chosen.map(({ id }) => id));
  const tables = [
    ...tablesOf(result, wanted),
    ...responseTables(scenario, result, wanted),
    ...pollTables(report, wanted),
  ];
  const within = tables.map((table) => rowsWithin(table, stretch));
  if (within.every(({ rows }) => rows === 0)) refuseEmpty(stretch);
  for (const { name, rows } of within)
    if (rows === 0)
      process.stderr.write(`${name}: left out, for none of its rows lies in what was asked for.\n`);
  const held = within.filter(({ rows }) => rows > 0);
  return writeAll(folder, options.form, held);
}

/** From `--from` to `--to`; all of the run where neither is given. */
function askedStretch({ from, to }: ExportOptions): ExportStretch {
  const read = (option: string, word: string | undefined, otherwise: number): number => {
    if (word === undefined) return otherwise;
    const time = readQuantity(word, 'time');
    if (!time.ok) throw new BadInput([{ severity: 'error', file: option, ...time }]);
    return time.value;
  };
  const stretch = {
    from_s: read('--from', from, Number.NEGATIVE_INFINITY),
    to_s: read('--to', to, Number.POSITIVE_INFINITY),
  };
  if (stretch.from_s < 0 && from !== undefined)
    refuse(
      '--from',
      `${from}, before the run begins`,
      'a time of 0 s or later',
      'leave it out, or write a later time',
    );
  if (!(stretch.from_s < stretch.to_s))
    refuse('--to', `${to}, not after ${from}`, 'a time after --from', 'write the later one after --to');
  return stretch;
}

/** A stretch that shares no time with the run would give tables without a row. */
function refuseBeyond({ from_s, to_s }: ExportStretch, ended_s: number): void {
  if (from_s <= ended_s && to_s >= 0) return;
  const [option, time_s] = from_s > ended_s ? ['--from', from_s] : ['--to', to_s];
  const run = `from 0 s to ${formatQuantity(ended_s, 'time', 6)}`;
  refuse(
    option,
    `${formatQuantity(time_s, 'time', 6)}, of a run ${run}`,
    'a time within the run',
    `write a time ${run}`,
  );
}

function refuseEmpty({ from_s, to_s }: ExportStretch): never {
  refuse(
    '--to',
    `a stretch of ${formatQuantity(to_s - from_s, 'time', 4)} in which no row lies`,
    'a stretch with rows in it',
    'make it longer',
  );
}

/** One line a file. */
function writeAll(folder: string, form: TableForm, tables: readonly ExportTable[]): string[] {
  return tables.map(
    (table) =>
      `${writeTable(folder, form, table)}: ${counted(table.rows, 'row')} of ${counted(table.columns.length, 'column')}`,
  );
}

/** A folder is replaced only where it holds tables and nothing else, and only with --force. */
function refuseTaken({ out, force }: ExportOptions): void {
  if (!existsSync(out)) return;
  const strangers = onDisk(out, () => readdirSync(out)).filter(
    (name) => !/^[a-z]+(-[a-z]+)*\.(csv|parquet)$/.test(name),
  );
  if (strangers.length > 0)
    refuse(
      out,
      `a folder with other files in it: ${strangers.slice(0, 3).join(', ')}`,
      free,
      'choose another name',
    );
  if (force !== true && readdirSync(out).length > 0)
    refuse(out, 'tables that were exported there', free, 'choose another name, or give --force');
}

const free = 'a name that is free, or tables and --force';

function refuse(file: string, found: string, expected: string, mend: string): never {
  throw new BadInput([{ severity: 'error', file, found, expected, mend }]);
}
