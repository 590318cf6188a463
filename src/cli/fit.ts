/** `buswake fit`: adjusts named parameters to a measurement. */
import { Command } from 'commander';
import { numberText } from '../analysis/number-text.ts';
import { BadInput } from '../problem.ts';
import { formatPercent, formatQuantity } from '../quantity.ts';
import { readMeasurement } from '../request/read-measurement.ts';
import { run } from '../run.ts';
import type { Branch } from '../scenario/document.ts';
import { readScenario } from '../scenario/read.ts';
import type { Change } from '../scenario/scenario.ts';
import { type Adjusted, adjustedOf, suspectsIn } from '../studies/fit/adjusted.ts';
import { type FitReport, fitParameters } from '../studies/fit/fit.ts';
import { simulatedFor } from '../studies/fit/simulated.ts';
import { quoted } from '../studies/replay.ts';
import { DiskSource } from './disk-source.ts';
import { exit } from './exit.ts';
import { readTextFile } from './files.ts';
import { addMeasuredOptions, askedMeasurement, type MeasuredOptions } from './measured-options.ts';
import { Progress } from './progress.ts';
import { scenarioFile } from './scenario-named.ts';
import { scenarioToRun } from './scenario-to-run.ts';
import { setOption } from './set-option.ts';

interface FitOptions extends MeasuredOptions {
  readonly set: readonly Change[];
  readonly adjust: readonly string[];
  readonly json?: boolean;
  readonly quiet?: boolean;
}

const examples = `Examples:
  buswake fit single-step --measured bench.csv --adjust shelves.droop
  buswake fit single-step --measured bench.csv --map v_bus=A.S1.voltage_V --adjust "shelves.droop = 0.4 mΩ to 1.2 mΩ" --json
`;

export function fitCommand(): Command {
  const command = new Command('fit')
    .description('adjust named parameters inside their ranges to a measurement, with confidence')
    .argument('<scenario>', 'path of a scenario, or the name of one in scenarios/')
    .addOption(setOption())
    .option(
      '--adjust <path>',
      'parameter to adjust, within the range of its model or "PATH = LOW to HIGH"; repeatable',
      (word: string, before: readonly string[]) => [...before, word],
      [],
    );
  return addMeasuredOptions(command)
    .option('-q, --quiet', 'no progress')
    .option('--json', 'print one JSON document')
    .addHelpText('before', examples)
    .action(fitAndPrint);
}

async function fitAndPrint(name: string, options: FitOptions): Promise<void> {
  const { scenario, recorded } = scenarioToRun(name, options.set);
  const asked = askedMeasurement(options);
  if (asked === null) {
    throw new BadInput([
      { severity: 'error', found: 'no measurement', expected: 'a file', mend: 'give --measured FILE' },
    ]);
  }
  const measurement = readMeasurement(new DiskSource(), asked, scenario);
  const file = scenarioFile(name);
  const trees = new Map<string, Branch>();
  const readWith = (changes: readonly Change[]) =>
    readScenario(file, { files: readTextFile, changes: [...options.set, ...changes], trees });
  const adjusted = adjustedOf(options.adjust, readWith([]));
  const given_s = options.measuredAt ?? null;
  const once = run(scenario, recorded, { measured: { measurement, at_s: given_s, near_s: asked.near_s } });
  const placed = once.report.measured!;
  if (placed.aligned === 'assumed') refusePlace(asked.file, placed.warnings);

  const progress = new Progress(`fit of ${scenario.id}`, options.quiet === true);
  // Steps of the three searches together, about.
  const most = 30;
  const report = await fitParameters({
    adjusted,
    measurement,
    at_s: placed.at_s,
    given: given_s !== null,
    suspects: suspectsIn(readWith([]), adjusted),
    run: async (changes) => simulatedFor(measurement, readWith(changes).scenario, recorded),
    onIteration: (iteration) => progress.at(Math.min(0.95, iteration / most)),
  }).finally(() => progress.clear());
  process.exitCode = exit.passed;
  const document = {
    schema_version: 1,
    study: 'fit',
    scenario: scenario.id,
    measured: { file: measurement.file, sha256: measurement.sha256, aligned: placed.aligned },
    inputs: scenario.inputs,
    ...report,
  };
  process.stdout.write(
    options.json === true
      ? `${JSON.stringify(document, null, 2)}\n`
      : `${fitText(report, adjusted, placed.aligned, name, options.set)}\n`,
  );
}

function refusePlace(file: string, warnings: readonly string[]): never {
  throw new BadInput([
    {
      severity: 'error',
      file,
      found: `a measurement that cannot be placed with the present values: ${warnings.join(' ')}`,
      expected: 'a place in time that the fit can begin from',
      mend: 'give --measured-at TIME, the time of the run at the first stamp',
    },
  ]);
}

function fitText(
  report: FitReport,
  adjusted: readonly Adjusted[],
  aligned: string,
  name: string,
  set: readonly Change[],
): string {
  const lines = [
    `Fit in ${report.iterations} steps (${report.runs} runs)${report.converged ? '' : ', not settled yet'}: error ${numberText(report.error_before, '')} before, ${numberText(report.error_after, '')} after, over the noise.`,
    `The measurement begins at ${numberText(report.measured_at_s, 's')} of the run (${aligned}).`,
    '',
  ];
  for (const { path, dimension, start } of adjusted) {
    const found = report.result[path]!;
    const show = (value: number): string => formatQuantity(value, dimension, 4);
    const interval =
      found.interval === null
        ? report.misfit.length > 0
          ? 'no interval, as what is left is not noise'
          : 'not bounded by this measurement'
        : `${show(found.interval[0])} to ${show(found.interval[1])} (95 %)`;
    const end = found.at_end ? ', at the end of its range: the truth may lie beyond' : '';
    lines.push(`  ${path}  ${show(found.value)}, ${interval}, from ${show(start)}${end}`);
  }
  lines.push('');
  for (const { channel, unit, rms_before, rms_after, noise } of report.channels) {
    const text = (value: number): string => numberText(value, unit === 'ratio' ? '' : unit);
    lines.push(
      `  ${channel}  RMS ${text(rms_before)} before, ${text(rms_after)} after, noise ${text(noise)}`,
    );
  }
  lines.push(...misfitLines(report), ...restingLines(report, adjusted));
  for (const group of report.cannot_tell_apart) {
    lines.push(
      `Cannot be told apart: ${group.join(', ')}. Only a combination is known; keep all but one fixed.`,
    );
  }
  for (const path of report.without_effect) lines.push(`No effect on what was measured: ${path}.`);
  const fitted = new Set(report.changes.map(({ path }) => path));
  const kept = set.filter(({ path }) => !fitted.has(path));
  const changes = [...kept, ...report.changes].flatMap(({ path, value }) => [
    '--set',
    quoted(`${path}=${value}`),
  ]);
  return [...lines, '', `to run with it: buswake run ${name} ${changes.join(' ')}`].join('\n');
}

/** What was kept and would move a found value out of its interval. */
function restingLines({ rests_on }: FitReport, adjusted: readonly Adjusted[]): string[] {
  return rests_on.map(({ path, moves }) => {
    const moved = adjusted.flatMap((parameter) => {
      const by = moves[parameter.path];
      return by === undefined
        ? []
        : [`${parameter.path} by up to ${formatQuantity(Math.abs(by), parameter.dimension, 2)}`];
    });
    return `Rests on ${path} as it stands: over its range it would move ${moved.join(', ')}.`;
  });
}

/** What is left where it is not noise: where it lies, and what would explain it. */
function misfitLines({ misfit, would_explain }: FitReport): string[] {
  const lines = misfit.map(({ channel, signs, band_Hz, moment_s }) => {
    const band = band_Hz === null ? '' : `, most of it from ${band_Hz[0]} to ${band_Hz[1]} Hz`;
    return `Misfit of ${channel}: ${signs.join(', ')}${band}, largest about ${numberText(moment_s, 's')} of the run.`;
  });
  if (misfit.length === 0) return [];
  const named = would_explain.map(
    ({ path, explains_ratio }) => `${path} (${formatPercent(explains_ratio, 2)} of it)`,
  );
  lines.push(
    named.length > 0
      ? `The model differs from what was measured; adjusting these too would explain a part: ${named.join(', ')}.`
      : 'The model differs from what was measured, and none of the usual parameters explains it: look at the set-up.',
  );
  return lines;
}
