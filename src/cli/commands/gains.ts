/** `buswake gains`: a map over two parameters with its stable region, a recommended point, and its proof in time. */
import { Command } from 'commander';
import { scenarioFile } from '../../shipped/scenario-named.ts';
import { gains } from '../../studies/gains/gains.ts';
import { planGains } from '../../studies/gains/plan.ts';
import { planShare } from '../../studies/share/plan.ts';
import { share } from '../../studies/share/share.ts';
import { againWords } from '../options/again.ts';
import { powerOf, powerWord } from '../options/power-option.ts';
import { repeatable } from '../options/repeatable-option.ts';
import { excludes, needs, type OptionRule, ruled } from '../options/rules/rule.ts';
import { readChanged } from '../study/scenarios.ts';
import { carryOutAndShow } from '../study/show.ts';
import { addStudyOptions, type StudyOptions, wholeAboveZero, wholeUpTo } from '../study/study-options.ts';
import { gainsText } from '../terminal/study/gains-text.ts';
import { shareText } from '../terminal/study/share-text.ts';

interface GainsOptions extends StudyOptions {
  readonly x: string;
  readonly y: string;
  readonly at?: string;
  readonly accept: readonly string[];
  readonly samples?: number;
  readonly seed?: number;
  readonly over?: boolean;
  readonly loads?: string;
  readonly confirm: boolean;
  readonly shareCases?: boolean;
}

const usualAxes = {
  x: 'firmware.share.time_constant=20 ms to 1 s in 24 log',
  y: 'firmware.share.latency=2.5 ms to 60 ms in 24',
} as const;

const examples = `Examples:
  buswake gains single-step --out out/share
  buswake gains single-step --over --loads "60 kW | 240 kW" --samples 16 --out out/robust
  buswake gains single-step --share-cases
  buswake gains single-step --x shelves.proportional_gain="100 A/V to 600 A/V in 12" --y shelves.control_delay="0 us to 110 us in 12"
`;

const mostSamples = 1000;

const rules: readonly OptionRule[] = [
  ...['--x', '--y', '--accept', '--samples', '--seed', '--over', '--loads', '--no-confirm'].map((option) =>
    excludes(option, '--share-cases', 'a map, or the tests of the share loop, which have no axes'),
  ),
  needs('--seed', ['--samples'], 'samples to draw', 'add --samples 32'),
  needs('--loads', ['--over'], 'loads, states and parts that a point must be acceptable in', 'add --over'),
];

export function gainsCommand(): Command {
  const command = new Command('gains');
  addStudyOptions(command, 'scenario', 'in parts')
    .option('--x <path=values>', 'first axis', usualAxes.x)
    .option('--y <path=values>', 'second axis', usualAxes.y)
    .option(
      '--at <power>',
      'load of the settled point; the highest steady load of the scenario by default',
      powerWord,
    )
    .addOption(
      repeatable('--accept <name=value>', 'criterion of an acceptable point, settling="0.3 s"', 'as printed'),
    )
    .option(
      '--samples <n>',
      'samples of the tolerances that the models state; an acceptable point is so with all of them (none)',
      wholeUpTo(mostSamples, 'more would take hours and say little more'),
    )
    .option('--seed <n>', 'of the samples (1)', wholeAboveZero)
    .option(
      '--over',
      'an acceptable point is so at every load, with a unit of each kind out, on batteries, at every age and temperature',
    )
    .option('--loads <values>', 'loads of --over, "24 kW to 240 kW in 4"; up to --at by default')
    .option('--share-cases', 'no map: test the share loop in the time domain, one row per case')
    .option(
      '--no-confirm',
      'run neither the box between the points of the map nor the recommended point in time',
    )
    .addHelpText('before', examples)
    .action(gainsAndPrint);
  return ruled(command, rules);
}

async function gainsAndPrint(name: string, options: GainsOptions, command: Command): Promise<void> {
  const again = againWords(command, name);
  const { x, y, set, at, accept, samples = 0, seed = 1, loads, confirm } = options;
  const over = options.over === true ? { loads: loads ?? null } : null;
  const asked = { scenario: scenarioFile(name), changes: set, load_W: powerOf(at) };
  if (options.shareCases === true) {
    const plan = planShare(asked, readChanged);
    return carryOutAndShow(share, plan, { options, again }, (report, { paint }) => shareText(report, paint));
  }
  const plan = planGains({ ...asked, x, y, accept, samples, seed, over, confirm }, readChanged);
  return carryOutAndShow(gains, plan, { options, again }, (report, { next, paint }) =>
    gainsText(report, next, paint),
  );
}
