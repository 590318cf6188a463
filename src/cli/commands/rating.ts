/** `buswake rating`: the largest load, or any scaled number, that passes. */
import { Command } from 'commander';
import { studyNamed } from '../../shipped/study-named.ts';
import { planRating } from '../../studies/rating/plan.ts';
import { rating } from '../../studies/rating/rating.ts';
import type { StudyFile } from '../../studies/written/study-file.ts';
import { againWords } from '../options/again.ts';
import { repeatable } from '../options/repeatable-option.ts';
import { readChanged, readFile } from '../study/scenarios.ts';
import { carryOutAndShow } from '../study/show.ts';
import { addStudyOptions, type StudyOptions } from '../study/study-options.ts';
import { ratingText } from '../terminal/study/rating-text.ts';

interface RatingCommandOptions extends StudyOptions {
  readonly scale: readonly string[];
  readonly from?: string;
  readonly to?: string;
  readonly within?: string;
  readonly duty?: string;
  readonly period?: string;
  readonly all?: boolean;
}

const examples = `Examples:
  buswake rating pulsed --out out/pulsed
  buswake rating pulse-train
  buswake rating pulse-train --duty "30 %, 50 %, 70 %, 90 %" --period "0.4 s, 1.6 s, 6.4 s" --out out/rating
  buswake rating single-step --scale load.after --within 0.5 %
`;

export function ratingCommand(): Command {
  const command = new Command('rating');
  return addStudyOptions(command, 'study', 'in parts')
    .addOption(repeatable('--scale <path>', 'what is scaled', 'every power of the load'))
    .option('--from <share>', 'smallest scale (50 %)')
    .option('--to <share>', 'largest scale (150 %)')
    .option('--within <share>', 'steps of the scale (1 %)')
    .option('--duty <list>', 'pulsed against steady load, over these duties')
    .option('--period <list>', 'pulsed against steady load, over these periods')
    .option('--all', 'run every scale, whatever the search would leave out')
    .addHelpText('before', examples)
    .action(ratingAndPrint);
}

async function ratingAndPrint(name: string, options: RatingCommandOptions, command: Command): Promise<void> {
  const again = againWords(command, name);
  const study = withWords(studyNamed(name, 'rating', options.set, readFile), options);
  const plan = planRating(study, readChanged, { all: options.all === true });
  await carryOutAndShow(rating, plan, { options, again }, (report, { next, paint }) =>
    ratingText(report, next, paint),
  );
}

function withWords(
  study: StudyFile,
  { scale, from, to, within, duty, period }: RatingCommandOptions,
): StudyFile {
  const words = new Map(study.words);
  for (const [key, word] of [
    ['from', from],
    ['to', to],
    ['within', within],
    ['duty', duty],
    ['period', period],
  ] as const) {
    if (word !== undefined) words.set(key, word);
  }
  return { ...study, words, scale: scale.length > 0 ? scale : study.scale };
}
