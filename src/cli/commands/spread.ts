/** `buswake spread`: tolerances sampled, the yield with its interval, the worst cases to repeat. */
import { Command, InvalidArgumentError, Option } from 'commander';
import { studyNamed } from '../../shipped/study-named.ts';
import { planSample, planSpread } from '../../studies/spread/plan.ts';
import { spread } from '../../studies/spread/spread.ts';
import { replayOf } from '../../studies/trials/replay.ts';
import type { StudyFile } from '../../studies/written/study-file.ts';
import { againWords } from '../options/again.ts';
import { excludes, type OptionRule, ruled } from '../options/rules/rule.ts';
import { readChanged, readFile } from '../study/scenarios.ts';
import { carryOutAndShow } from '../study/show.ts';
import { addStudyOptions, type StudyOptions, wholeAboveZero } from '../study/study-options.ts';
import { spreadText } from '../terminal/study/spread-text.ts';

interface SpreadOptions extends StudyOptions {
  readonly tolerance: readonly (readonly [string, string])[];
  readonly samples?: string;
  readonly seed?: string;
  readonly sampling?: string;
  readonly halfWidth?: string;
  readonly of?: string;
  readonly rare?: string;
  readonly models?: boolean;
  readonly sample?: number;
}

const examples = `Examples:
  buswake spread tolerances --out out/spread
  buswake spread single-step --samples 100 --tolerance "shelves.set_point_offset=uniform plus 0.25 %"
  buswake spread tolerances --part 3/8 --out out/part-3
  buswake spread tolerances --merge out/part-1 out/part-2 --out out/whole
`;

/** `--sample` runs nothing and keeps nothing: what says how a study is run, kept or shown has nothing to act on. */
const rules: readonly OptionRule[] = [
  '--out',
  '--resume',
  '--force',
  '--workers',
  '--part',
  '--merge',
  '--json',
  '--quiet',
].map((option) =>
  excludes(option, '--sample', 'a study, or the command of one of its samples', 'leave it out'),
);

export function spreadCommand(): Command {
  const command = new Command('spread');
  addStudyOptions(command, 'study', 'in parts')
    .addOption(
      new Option(
        '--tolerance <path=text>',
        'what is drawn and how: "normal by 5 %" (a share of the value), "uniform plus 1 %" (added), "uniform from 1 ms to 2 ms"; repeatable',
      )
        .argParser(pair)
        .default([], 'as the study says'),
    )
    .option('--models', 'draw every value whose model states a range, beside the tolerances of the study')
    .option('--samples <n>', 'how many (200)')
    .option('--seed <n>', 'of all draws (1)')
    .option('--sampling <how>', 'latin-hypercube or plain')
    .option('--half-width <share>', 'end once the yield is known this well, for example 2 %')
    .option('--rare <n>', 'a small probability of failing, from so many runs in all (2000 tell 1e-3)')
    .option('--of <what>', 'what sensitivity is about: headroom or a metric')
    .option('--sample <n>', 'print the command that repeats one sample, and run nothing', wholeAboveZero)
    .addHelpText('before', examples)
    .action(spreadAndPrint);
  return ruled(command, rules);
}

function pair(
  word: string,
  before: readonly (readonly [string, string])[],
): readonly (readonly [string, string])[] {
  const cut = word.indexOf('=');
  if (cut < 1)
    throw new InvalidArgumentError('write it as path=tolerance, for example trays.esr="normal by 10 %".');
  return [...before, [word.slice(0, cut).trim(), word.slice(cut + 1).trim()] as const];
}

async function spreadAndPrint(name: string, options: SpreadOptions, command: Command): Promise<void> {
  const again = againWords(command, name);
  const study = withWords(studyNamed(name, 'spread', options.set, readFile), options);
  const { sample } = options;
  if (sample !== undefined) {
    process.stdout.write(`${replayOf(planSample(study, readChanged, sample))}\n`);
    return;
  }
  const plan = planSpread(study, readChanged);
  await carryOutAndShow(spread, plan, { options, again }, (report, { next, paint }) =>
    spreadText(report, again, next, paint),
  );
}

/** What the command line says stands over what the study says. */
function withWords(study: StudyFile, options: SpreadOptions): StudyFile {
  const words = new Map(study.words);
  const { samples, seed, sampling, halfWidth, of, rare, models } = options;
  for (const [key, word] of [
    ['samples', samples],
    ['seed', seed],
    ['sampling', sampling],
    ['half_width', halfWidth],
    ['of', of],
    ['rare', rare],
    ['models', models === true ? 'yes' : undefined],
  ] as const) {
    if (word !== undefined) words.set(key, word);
  }
  const own = new Set(options.tolerance.map(([path]) => path));
  const others = study.tolerances.filter(([path]) => !own.has(path));
  return { ...study, words, tolerances: [...others, ...options.tolerance] };
}
