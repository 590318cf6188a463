/** `buswake run`: scenario to verdict. */

import { Command } from 'commander';
import type { Report } from '../analysis/report.ts';
import { checkTarget, writeBundle } from '../bundle/write.ts';
import { playedOf, playedSentences } from '../loads/recorded/played.ts';
import type { RecordedLoad } from '../loads/recorded/recorded-load.ts';
import { formatProblem } from '../problem.ts';
import { formatQuantity } from '../quantity.ts';
import type { Change, Scenario, Waiver } from '../scenario/scenario.ts';
import { energyTable } from './energy-table.ts';
import { type ExitCode, exit } from './exit.ts';
import { addMeasuredOptions, type MeasuredOptions, measurementOf } from './measured-options.ts';
import { measuredText } from './measured-text.ts';
import { type Paint, paintFor } from './paint.ts';
import { Progress } from './progress.ts';
import { addReadingOptions, assumedOf, type ReadingOptions, readingOf } from './reading-options.ts';
import { addReplayOptions, type ReplayOptions, replayChanges } from './replay-options.ts';
import { reportText, verdictLine } from './report-text.ts';
import { runApart } from './run-apart.ts';
import { scenarioToRun } from './scenario-to-run.ts';
import { setOption } from './set-option.ts';
import { changesFrom, typed } from './typed-options.ts';
import { judgedOn, onOption, waiveOption } from './waive-option.ts';

interface RunCommandOptions extends ReadingOptions, ReplayOptions, MeasuredOptions {
  readonly set: readonly Change[];
  readonly waive: readonly Waiver[];
  readonly on?: string;
  readonly load?: string;
  readonly json?: boolean;
  readonly out?: string;
  readonly force?: boolean;
  readonly doubt?: boolean;
  readonly energy?: boolean;
  readonly quiet?: boolean;
  readonly color: boolean;
}

const widest = 120;
const withoutTerminal = 100;

const examples = `Examples:
  buswake run pulse-train
  buswake run pulse-train --set trays.capacitance="130 F" --out out/smaller
  buswake run pulse-train --load load.csv --power power_W --at rack --copies 1 --json
`;

/** `run SCENARIO`: simulates, judges, prints the verdict; keeps the bundle where asked for. */
export function runCommand(): Command {
  const command = new Command('run')
    .description('simulate a scenario and judge it by its limits')
    .argument('<scenario>', 'path of a scenario, or the name of one in scenarios/; - reads stdin')
    .addOption(setOption())
    .addOption(waiveOption())
    .addOption(onOption())
    .option('-o, --out <dir>', 'keep the run there: report, channels, scenario')
    .option('--force', 'overwrite a run kept in that directory')
    .option('--load <file>', "replay a recorded load instead of the scenario's own");
  return addMeasuredOptions(addReplayOptions(addReadingOptions(command)))
    .option('--doubt', 'run again at half the step and say how far each finding moved')
    .option('--energy', 'print where every joule went, device by device')
    .option('-q, --quiet', 'print the verdict line alone')
    .option('--json', 'print one JSON document')
    .option('--no-color', 'no colour')
    .addHelpText('before', examples)
    .action(runAndPrint);
}

async function runAndPrint(name: string, options: RunCommandOptions): Promise<void> {
  const load =
    options.load === undefined
      ? null
      : { file: options.load, reading: readingOf(options), assumed: assumedOf(options) };
  const replay = replayChanges(options);
  const {
    scenario: read,
    recorded,
    warnings,
  } = await typed(() =>
    scenarioToRun(name, [...options.set, ...replay], load, options.waive, changesFrom(replay)),
  );
  for (const warning of warnings) process.stderr.write(`${formatProblem(warning)}\n`);
  const scenario = judgedOn(read, options.on);
  for (const warning of recorded?.statement.warnings ?? []) {
    process.stderr.write(`warning  ${recorded?.statement.file}: ${warning}\n`);
  }
  if (load !== null && options.quiet !== true) {
    for (const sentence of playedText(scenario, recorded)) process.stderr.write(`${sentence}\n`);
  }

  const force = options.force === true;
  if (options.out !== undefined) checkTarget(options.out, { force });

  const measurement = measurementOf(options, scenario);
  const measured = measurement && { measurement, at_s: options.measuredAt ?? null };

  const progress = new Progress(scenario.id, options.quiet === true);
  const { report, result } = await typed(() =>
    runApart(scenario, recorded, options.doubt === true, (fraction) => progress.at(fraction), measured),
  ).finally(() => progress.clear());
  process.exitCode = exitCodeOf(report);
  if (report.status === 'stopped') {
    process.stderr.write(
      `Stopped at ${formatQuantity(report.window_s.to, 'time')} of ${formatQuantity(scenario.duration_s, 'time')}; nothing was written.\n`,
    );
    return;
  }
  if (options.out !== undefined) {
    writeBundle(options.out, { report, result, scenario }, { force });
  }
  process.stdout.write(`${printed(report, name, options)}\n`);
}

/** Said before the run: it may take long, and the stretch may not be the one that was meant. */
function playedText({ load, duration_s }: Scenario, recorded: RecordedLoad | null): string[] {
  if (load.kind !== 'recorded' || recorded === null) return [];
  const played = playedOf(recorded, load, duration_s);
  if (played === null) return [];
  return playedSentences(played, load.file, recorded.statement.duration_s, '--from');
}

function printed(report: Report, name: string, options: RunCommandOptions): string {
  if (options.json === true) return JSON.stringify(report, null, 2);
  const paint: Paint = paintFor(process.stdout, options.color);
  if (options.quiet === true) return verdictLine(report, paint);
  const width = Math.min(process.stdout.columns ?? withoutTerminal, widest);
  const text = reportText(report, nextStep(name, options.out), width, paint);
  return [
    text,
    ...(report.measured === undefined ? [] : [measuredText(report.measured)]),
    ...(options.energy === true ? [energyTable(report)] : []),
  ].join('\n\n');
}

function nextStep(name: string, out: string | undefined): string {
  return out === undefined
    ? `keep and see it: buswake run ${name} --out out/run, then buswake view out/run`
    : `see it: buswake view ${out}`;
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
