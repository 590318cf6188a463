/** `buswake response`: frequency responses, bus impedance, loop gains, modes and their owners. */
import { Command, InvalidArgumentError } from 'commander';
import { BadInput, formatProblem } from '../../base/problem.ts';
import { readQuantity } from '../../base/quantity.ts';
import { hardestLoad_W } from '../../linear/rest.ts';
import type { Change, Scenario } from '../../scenario/scenario.ts';
import { layPoints, readPoints } from '../../studies/response/points.ts';
import { responseReport } from '../../studies/response/report.ts';
import { defaults, type Response, respond } from '../../studies/response/response.ts';
import { readTextFile } from '../disk/files.ts';
import { jsonText, studyReportName, writeStudyFiles } from '../disk/study-files.ts';
import { exit } from '../exit.ts';
import { scenarioToRun } from '../options/scenario-to-run.ts';
import { setOption } from '../options/set-option.ts';
import { paintFor } from '../terminal/paint.ts';
import { Progress } from '../terminal/progress.ts';
import { pointsText, responseText } from '../terminal/study/response-text.ts';

interface ResponseCommandOptions {
  readonly set: readonly Change[];
  readonly at?: number;
  readonly node: readonly string[];
  readonly shelf?: string;
  readonly points?: number;
  readonly measured?: string;
  readonly curve?: string;
  readonly out?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
  readonly color: boolean;
}

const examples = `Examples:
  buswake response single-step
  buswake response single-step --at "120 kW" --node sled-1 --node A.S3
  buswake response single-step --measured points.csv --curve "load to rectifier current"
  buswake response single-step --set shelves.control_delay="75 us" --json
`;

export function responseCommand(): Command {
  return new Command('response')
    .description('frequency responses, bus impedance, loop gains, modes and who owns them')
    .argument('<scenario>', 'path of a scenario, or the name of one in scenarios/')
    .addOption(setOption())
    .option(
      '--at <power>',
      'load of the settled point; the highest steady load of the scenario by default',
      power,
    )
    .option(
      '--node <node>',
      'node whose impedance is wanted; repeatable; the lowest sled by default',
      collect,
      [],
    )
    .option('--shelf <shelf>', 'shelf whose share and power loops are shown')
    .option('--points <n>', 'points of each curve', points)
    .option('--measured <file>', 'points to lay over: columns frequency_Hz, gain_dB, phase_deg, curve')
    .option('--curve <name>', 'curve that the points belong to, where the file has no column for it')
    .option('-o, --out <dir>', 'keep the report there')
    .option('-q, --quiet', 'print one line')
    .option('--json', 'print one JSON document')
    .option('--no-color', 'no colour')
    .addHelpText('before', examples)
    .action(run);
}

/** A power as written on the command line [W]. */
export function power(word: string): number {
  const read = readQuantity(word, 'power');
  if (!('value' in read))
    throw new InvalidArgumentError('write a power with its unit, for example "200 kW".');
  return read.value;
}

function points(word: string): number {
  const n = Number(word);
  if (!Number.isInteger(n) || n < 3 || n > 2000) throw new InvalidArgumentError('write 3 to 2000.');
  return n;
}

function collect(word: string, before: readonly string[]): readonly string[] {
  return [...before, word];
}

/** The load of the settled point: asked for, or the scenario's own. */
export function settledLoad_W(scenario: Scenario, asked: number | undefined): number {
  const load = asked ?? hardestLoad_W(scenario);
  if (load !== null) return load;
  throw new BadInput([
    {
      severity: 'error',
      path: 'load',
      found: 'a load without one steady level to settle at',
      expected: 'the load of the settled point',
      mend: 'say --at "200 kW"',
    },
  ]);
}

async function run(name: string, options: ResponseCommandOptions): Promise<void> {
  const { scenario, warnings } = scenarioToRun(name, options.set);
  for (const warning of warnings) process.stderr.write(`${formatProblem(warning)}\n`);
  const points =
    options.measured === undefined
      ? []
      : readPoints(options.measured, readTextFile(options.measured).text, [
          defaults.low_Hz,
          defaults.high_Hz,
        ]);
  const progress = new Progress(`response of ${scenario.id}`, options.quiet === true);
  let response: Response;
  try {
    response = respond(scenario, {
      load_W: settledLoad_W(scenario, options.at),
      nodes: options.node,
      shelf: options.shelf ?? null,
      ...(options.points === undefined ? {} : { points: options.points }),
      also_Hz: points.map(({ frequency_Hz }) => frequency_Hz),
      onProgress: (fraction) => progress.at(fraction),
    });
  } finally {
    progress.clear();
  }
  const { curves, loops, minorLoops } = response;
  const all = [...curves, ...loops.map(({ curve }) => curve), ...minorLoops.map(({ curve }) => curve)];
  const measured = layPoints(options.measured ?? '', points, all, options.curve ?? null);
  const report = responseReport(scenario, response, measured);
  if (options.out !== undefined) writeStudyFiles(options.out, { [studyReportName]: jsonText(report) });
  process.exitCode = response.modes.some(({ real_per_s }) => real_per_s >= 0) ? exit.failed : exit.passed;
  if (options.json === true) {
    process.stdout.write(jsonText(report));
    return;
  }
  const paint = paintFor(process.stdout, options.color);
  process.stdout.write(`${responseText(scenario, response, options.quiet === true, paint)}\n`);
  if (options.quiet === true) return;
  if (measured.length > 0) process.stdout.write(`\n${pointsText(measured, paint)}\n`);
  process.stdout.write(
    `\n${paint('strong', 'next')}  ${options.out === undefined ? `keep it: buswake response ${name} --out out/response` : `as a page: buswake view ${options.out}`}\n`,
  );
}
