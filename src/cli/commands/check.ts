import { Command } from 'commander';
import { counted } from '../../base/counted.ts';
import { formatProblem, type Problem } from '../../base/problem.ts';
import { DiskSource } from '../../bundle/disk-source.ts';
import { type ReadScenario, readScenario } from '../../scenario/read.ts';
import type { Change, Scenario } from '../../scenario/scenario.ts';
import { scenarioFile } from '../../shipped/scenario-named.ts';
import { quotedPlace } from '../../studies/trials/replay.ts';
import { toolVersion } from '../../version.ts';
import { optionWords } from '../options/again.ts';
import { excludes, type OptionRule, ruled } from '../options/rules/rule.ts';
import { setOption } from '../options/set-option.ts';
import { jsonOption } from '../options/shared-options.ts';
import { scenarioLines } from '../terminal/scenario-text.ts';

interface CheckOptions {
  readonly set: readonly Change[];
  readonly json?: boolean;
  readonly paths?: boolean;
  readonly quiet?: boolean;
}

const rules: readonly OptionRule[] = [excludes('--quiet', '--paths', 'paths to be printed, or nothing')];

/** `check SCENARIO`: reads and validates all files, says what would be run, runs nothing. */
export function checkCommand(): Command {
  const command = new Command('check')
    .argument('<scenario>', 'path of a scenario, or the name of one in scenarios/; - reads stdin')
    .addOption(setOption())
    .option('--paths', 'list every path that --set may name, with nothing else')
    .option('-q, --quiet', 'print nothing when all is well')
    .addOption(jsonOption())
    .addHelpText(
      'before',
      'Examples:\n  buswake check pulse-train\n  buswake check pulse-train --set trays.capacitance="130 F"\n',
    )
    .action((name: string, options: CheckOptions, command: Command) => {
      const file = scenarioFile(name);
      const source = new DiskSource();
      const read = readScenario(file, { files: (path) => source.text(path), changes: options.set });
      if (options.json === true) {
        process.stdout.write(`${JSON.stringify(documentOf(file, read, options), null, 2)}\n`);
        return;
      }
      for (const warning of read.warnings) process.stderr.write(`${formatProblem(warning)}\n`);
      if (options.paths === true) process.stdout.write(`${read.paths.join('\n')}\n`);
      else if (options.quiet !== true)
        process.stdout.write(
          textOf(read, ['buswake run', quotedPlace(name), ...optionWords(command, ['paths'])].join(' ')),
        );
    });
  return ruled(command, rules);
}

/** `run`: the command that runs it. */
function textOf({ scenario, warnings }: ReadScenario, run: string): string {
  const lines = scenarioLines(scenario).map(([label, text]) => `  ${label.padEnd(9)} ${text}`.trimEnd());
  const count = warnings.length;
  const warned = count === 0 ? 'no warnings' : count === 1 ? '1 warning' : `${count} warnings`;
  return [
    `${scenario.id}: ${scenario.title}`,
    ...lines,
    `${counted(scenario.inputs.length, 'file')} read, no problems, ${warned}. To run it: ${run}`,
    '',
  ].join('\n');
}

/** What `check --json` prints. */
export interface CheckDocument
  extends Pick<
    Scenario,
    | 'seed'
    | 'duration_s'
    | 'start'
    | 'warm_up_s'
    | 'step_s'
    | 'tick_s'
    | 'outage'
    | 'nominal_V'
    | 'rated_W'
    | 'load'
    | 'events'
    | 'inputs'
    | 'changes'
  > {
  readonly schema_version: number;
  readonly tool_version: string;
  /** The scenario file. */
  readonly file: string;
  readonly scenario: Pick<Scenario, 'id' | 'title' | 'about' | 'expectation'>;
  /** How many units of each kind, link bars and limits there are. */
  readonly counts: Readonly<Record<string, number>>;
  readonly warnings: readonly Problem[];
  /** With --paths: every path that --set may name. */
  readonly paths?: readonly string[];
}

function documentOf(file: string, read: ReadScenario, options: CheckOptions): CheckDocument {
  const { scenario } = read;
  return {
    schema_version: 1,
    tool_version: toolVersion,
    file,
    scenario: {
      id: scenario.id,
      title: scenario.title,
      about: scenario.about,
      expectation: scenario.expectation,
    },
    seed: scenario.seed,
    duration_s: scenario.duration_s,
    start: scenario.start,
    warm_up_s: scenario.warm_up_s,
    step_s: scenario.step_s,
    tick_s: scenario.tick_s,
    outage: scenario.outage,
    nominal_V: scenario.nominal_V,
    rated_W: scenario.rated_W,
    counts: {
      feeders: scenario.feeders.length,
      shelves: scenario.shelves.length,
      trays: scenario.trays.length,
      banks: scenario.banks.length,
      batteries: scenario.batteries.length,
      sleds: scenario.sleds.length,
      link_bars: scenario.bars.links.length,
      limits: scenario.limits.length,
    },
    load: scenario.load,
    events: scenario.events,
    inputs: scenario.inputs,
    changes: scenario.changes,
    warnings: read.warnings,
    ...(options.paths === true ? { paths: read.paths } : {}),
  };
}
