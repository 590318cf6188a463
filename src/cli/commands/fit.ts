/** `buswake fit`: adjusts named parameters to a measurement. */
import { Command } from 'commander';
import { BadInput } from '../../base/problem.ts';
import { readMeasurement } from '../../request/read-measurement.ts';
import { run } from '../../run.ts';
import { readScenario } from '../../scenario/read.ts';
import type { Change } from '../../scenario/scenario.ts';
import type { Branch } from '../../scenario/text/document.ts';
import { adjustedOf, suspectsIn } from '../../studies/fit/adjusted.ts';
import { fitParameters } from '../../studies/fit/fit.ts';
import { simulatedFor } from '../../studies/fit/simulated.ts';
import { DiskSource } from '../disk/disk-source.ts';
import { readTextFile } from '../disk/files.ts';
import { exit } from '../exit.ts';
import { addMeasuredOptions, askedMeasurement, type MeasuredOptions } from '../options/measured-options.ts';
import { scenarioFile } from '../options/scenario-named.ts';
import { scenarioToRun } from '../options/scenario-to-run.ts';
import { setOption } from '../options/set-option.ts';
import { Progress } from '../terminal/progress.ts';
import { fitText } from '../terminal/study/fit-text.ts';

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
