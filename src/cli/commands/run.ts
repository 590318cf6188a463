/** `buswake run`: scenario to verdict. */

import { Command } from 'commander';
import type { Report } from '../../analysis/judge/report.ts';
import { formatProblem } from '../../base/problem.ts';
import { formatQuantity } from '../../base/quantity.ts';
import { thisBuild } from '../../bundle/build.ts';
import { DiskSource } from '../../bundle/disk-source.ts';
import { checkTarget, writeBundle } from '../../bundle/write.ts';
import type { WaveformFiles } from '../../export/save-waveforms.ts';
import { playedOf, playedSentences } from '../../loads/recorded/played.ts';
import type { RecordedLoad } from '../../loads/recorded/recorded-load.ts';
import { prepare } from '../../request/prepare.ts';
import type { RunRequest } from '../../request/run-request.ts';
import { signSentence } from '../../samples/signs/sign.ts';
import { limitsPath } from '../../scenario/read.ts';
import type { Change, Scenario, Waiver } from '../../scenario/scenario.ts';
import { scenarioFile } from '../../shipped/scenario-named.ts';
import { shippedLimitsText } from '../../shipped/shipped-limits.ts';
import { quotedPlace } from '../../studies/trials/replay.ts';
import { type Judged, type Ran, type RunThread, withThread } from '../apart/run-apart.ts';
import { withParts } from '../apart/waveform-parts.ts';
import { fromHere } from '../disk/from-here.ts';
import { refusePrecious } from '../disk/refuse-precious.ts';
import { type ExitCode, exit } from '../exit.ts';
import { againWords } from '../options/again.ts';
import { addMeasuredOptions, askedMeasurement, type MeasuredOptions } from '../options/measured-options.ts';
import {
  addReadingOptions,
  addUseOptions,
  assumedOf,
  type ReadingOptions,
  readingOf,
} from '../options/reading-options.ts';
import { addReplayOptions, type ReplayOptions, replayChanges } from '../options/replay-options.ts';
import { measuredRules } from '../options/rules/measured-rules.ts';
import { loadRules } from '../options/rules/reading-rules.ts';
import { excludes, needs, type OptionRule, onDiskAlone, ruled } from '../options/rules/rule.ts';
import { waveformRules } from '../options/rules/waveform-rules.ts';
import { setOption } from '../options/set-option.ts';
import { forceOption, jsonOption } from '../options/shared-options.ts';
import { askedChanges, typed } from '../options/typed-options.ts';
import { onOption, today, waiveOption } from '../options/waive-option.ts';
import {
  addWaveformOptions,
  askedFiles,
  askedPace,
  askedSeries,
  refuseBothEdges,
  type WaveformOptions,
} from '../options/waveform-options.ts';
import { energyTable } from '../terminal/energy-table.ts';
import { measuredText } from '../terminal/measured-text.ts';
import { monitoringText } from '../terminal/monitoring-text.ts';
import { type Paint, paintFor } from '../terminal/paint.ts';
import { Progress } from '../terminal/progress.ts';
import { protectionText } from '../terminal/protection-text.ts';
import { withReadingLine } from '../terminal/reading-line.ts';
import { reportText, verdictLine } from '../terminal/report-text.ts';
import { responsesTable } from '../terminal/responses-table.ts';
import { statementInShort } from '../terminal/statement-text.ts';
import { waveformLines } from '../terminal/waveform-lines.ts';

interface RunCommandOptions extends ReadingOptions, ReplayOptions, MeasuredOptions, WaveformOptions {
  readonly set: readonly Change[];
  readonly limits?: string;
  readonly waive: readonly Waiver[];
  readonly on?: string;
  readonly load?: string;
  readonly json?: boolean;
  readonly out?: string;
  readonly force?: boolean;
  readonly doubt?: boolean;
  readonly energy?: boolean;
  readonly steps?: boolean;
  readonly monitoring?: boolean;
  readonly trips?: boolean;
  readonly quiet?: boolean;
  readonly verbose?: boolean;
  readonly color: boolean;
}

const widest = 120;
const withoutTerminal = 100;

const examples = `Examples:
  buswake run pulse-train
  buswake run pulse-train --set trays.capacitance="130 F" --out out/smaller
  buswake run pulse-train --load load.csv --power power_W --at rack --side dc --copies 1 --json
`;

const rules: readonly OptionRule[] = [
  ...loadRules,
  ...measuredRules,
  ...waveformRules,
  onDiskAlone('--out'),
  needs('--force', ['--out', '--csv', '--parquet'], 'something that it may overwrite', 'leave it out'),
  excludes('--verbose', '--quiet', 'the verdict line alone, or everything'),
  excludes(
    '--verbose',
    '--json',
    'a text, which it makes longer: the document holds everything',
    'leave it out',
  ),
  excludes('--energy', '--json', 'a text to add it to: the document holds it', 'leave it out'),
  excludes('--energy', '--quiet', 'a text to add it to: --quiet prints one line'),
  excludes('--steps', '--json', 'a text to add it to: the document holds it', 'leave it out'),
  excludes('--steps', '--quiet', 'a text to add it to: --quiet prints one line'),
  excludes('--monitoring', '--json', 'a text to add it to: the document holds it', 'leave it out'),
  excludes('--monitoring', '--quiet', 'a text to add it to: --quiet prints one line'),
  excludes('--trips', '--json', 'a text to add it to: the document holds it', 'leave it out'),
  excludes('--trips', '--quiet', 'a text to add it to: --quiet prints one line'),
];

/** `run SCENARIO`: simulates, judges, prints the verdict; keeps the bundle where asked for. */
export function runCommand(): Command {
  const command = new Command('run')
    .argument('<scenario>', 'path of a scenario, or the name of one in scenarios/; - reads stdin')
    .addOption(setOption())
    .option('--limits <file>', "judge by that limits file, or by another party's specification (.csv)")
    .addOption(waiveOption())
    .addOption(onOption())
    .option('-o, --out <dir>', 'keep the run there, with all that made it: see verify')
    .addOption(forceOption('a run kept in that directory, and files of waveforms'))
    .option('--load <file>', "replay a recorded load instead of the scenario's own");
  addReplayOptions(addUseOptions(addReadingOptions(command)));
  addWaveformOptions(addMeasuredOptions(command))
    .option(
      '--doubt',
      'run again at half the step, at a quarter and with trims nudged; guard the verdict by how far findings move',
    )
    .option('--energy', 'print where every joule went, device by device')
    .option(
      '--steps',
      'print overshoot, settling time and time at limits of every unit after edges and events',
    )
    .option('--monitoring', 'print what the declared ports of the management network would have seen')
    .option('--trips', 'print how near guarded currents come to the time–current curves that are given')
    .option(
      '-v, --verbose',
      'print everything: every limit, the whole basis, all metrics, what is known of the load',
    )
    .option('-q, --quiet', 'print the verdict line alone')
    .addOption(jsonOption())
    .option('--no-color', 'no colour')
    .addHelpText('before', examples)
    .action(runAndPrint);
  return ruled(command, rules);
}

/** Options of a run that say how it is shown, or write what it holds elsewhere. */
const besideTheRun = [
  'verbose',
  'energy',
  'steps',
  'monitoring',
  'trips',
  'csv',
  'parquet',
  'channels',
  'rate',
  'filter',
  'everyStep',
];

async function runAndPrint(name: string, options: RunCommandOptions, command: Command): Promise<void> {
  const force = options.force === true;
  if (options.out !== undefined) checkTarget(options.out, { force });
  const files = askedFiles(options, force);
  const again = againWords(command, name, besideTheRun);
  await withThread((thread) => runOn(thread, { name, again }, options, files));
}

async function runOn(
  thread: RunThread,
  { name, again }: { readonly name: string; readonly again: string },
  options: RunCommandOptions,
  files: ReturnType<typeof askedFiles>,
): Promise<void> {
  const request = requestOf(name, options);
  const source = new DiskSource({ keeps: options.out !== undefined });
  const { scenario, recorded, measured, warnings } = await typed(() =>
    withReadingLine((onProgress) =>
      prepare(request, source, { onProgress, shippedLimits: shippedLimitsText() }),
    ),
  );
  refusePrecious(
    files.map(({ target }) => target),
    [...scenario.inputs.map(({ path }) => path), request.load?.file ?? '-', request.measured?.file ?? '-'],
  );
  for (const warning of warnings) process.stderr.write(`${formatProblem(warning)}\n`);
  if (recorded !== null) {
    const { file, signs, warnings: own } = recorded.statement;
    for (const warning of [...signs.map((sign) => `suspect: ${signSentence(sign)}`), ...own])
      process.stderr.write(`warning  ${file}: ${warning}\n`);
  }
  if (options.load !== undefined && options.quiet !== true) {
    for (const sentence of playedText(options.load, scenario, recorded))
      process.stderr.write(`${sentence}\n`);
  }
  // Now, not after the run: a file that is still written to is refused before time goes into it.
  const provenance =
    options.out === undefined ? null : { request, inputs: source.kept(), build: thisBuild() };

  const waveforms =
    files.length === 0
      ? null
      : { series: askedSeries(scenario, options), pace: askedPace(options, scenario) };
  if (waveforms !== null) refuseBothEdges(scenario);

  const progress = new Progress(scenario.id, options.quiet === true);
  const apart = (into?: WaveformFiles): Promise<Judged | Ran> => {
    const order = { scenario, recorded, doubt: request.doubt, measured, waveforms: into };
    const told = (fraction: number): void => progress.at(fraction);
    return provenance === null ? thread.judge(order, told) : thread.run(order, told);
  };
  const ran = await typed(() =>
    waveforms === null ? apart() : withParts(waveforms, files, { force: options.force === true }, apart),
  ).finally(() => progress.clear());
  const { report, rows } = ran;
  process.exitCode = exitCodeOf(report);
  if (report.status === 'stopped') {
    process.stderr.write(
      `Stopped at ${formatQuantity(report.window_s.to, 'time', 4)} of ${formatQuantity(scenario.duration_s, 'time')}; nothing was written.\n`,
    );
    return;
  }
  if (options.out !== undefined && provenance !== null && 'result' in ran) {
    const { result } = ran;
    writeBundle(options.out, { report, result, scenario, provenance }, { force: options.force === true });
  }
  if (waveforms !== null && options.quiet !== true)
    process.stderr.write(`${waveformLines(waveforms, files, rows).join('\n')}\n`);
  process.stdout.write(`${printed(report, again, options)}\n`);
}

/** What the command line asks for, whole: the same request and the same files make the same run. */
function requestOf(name: string, options: RunCommandOptions): RunRequest {
  const { load } = options;
  return {
    scenario: fromHere(scenarioFile(name)),
    changes: askedChanges(options.set, [...limitsChange(options), ...replayChanges(options)]),
    load:
      load === undefined
        ? null
        : { file: fromHere(load), reading: readingOf(options), assumed: assumedOf(options) },
    waivers: options.waive,
    judged_on: options.on ?? today(),
    asked_on: today(),
    doubt: options.doubt === true,
    measured: askedMeasurement(options),
  };
}

function limitsChange({ limits }: RunCommandOptions): Change[] {
  return limits === undefined ? [] : [{ path: limitsPath, value: fromHere(limits) }];
}

/** Said before the run: it may take long, and the stretch may not be the one that was meant. */
function playedText(file: string, { load, duration_s }: Scenario, recorded: RecordedLoad | null): string[] {
  if (load.kind !== 'recorded' || recorded === null) return [];
  const played = playedOf(recorded, load, duration_s);
  if (played === null) return [];
  return playedSentences(played, file, recorded.statement.duration_s, '--from');
}

function printed(report: Report, again: string, options: RunCommandOptions): string {
  if (options.json === true) return JSON.stringify(report, null, 2);
  const paint: Paint = paintFor(process.stdout, options.color);
  if (options.quiet === true) return verdictLine(report, paint);
  const width = Math.min(process.stdout.columns ?? withoutTerminal, widest);
  const next = nextStep(again, options.out);
  const text = reportText(report, { next, width, paint, verbose: options.verbose === true });
  return [
    text,
    ...(report.statement === undefined ? [] : [statementInShort(report.statement, width, options.out)]),
    ...(report.measured === undefined ? [] : [measuredText(report.measured)]),
    ...(options.energy === true ? [energyTable(report)] : []),
    ...(options.steps === true ? [responsesTable(report, width)] : []),
    ...(options.monitoring === true ? [monitoringText(report, width)] : []),
    ...(options.trips === true ? [protectionText(report, width)] : []),
  ].join('\n\n');
}

function nextStep(again: string, out: string | undefined): string {
  return out === undefined
    ? `keep and see it: ${again} --out out/run, then buswake view out/run`
    : `see it: buswake view ${quotedPlace(out)}`;
}

/** How the run ended goes before what it showed. */
export function exitCodeOf(report: Pick<Report, 'status' | 'verdict'>): ExitCode {
  if (report.status === 'stopped') return exit.stopped;
  if (report.status === 'non_finite' || report.status === 'audit_open') return exit.numerical;
  switch (report.verdict) {
    case 'pass':
    case 'pass_with_conditions':
      return exit.passed;
    case 'fail':
      return exit.failed;
    case 'inconclusive':
      return exit.inconclusive;
  }
}
