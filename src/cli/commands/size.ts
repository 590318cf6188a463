/** `buswake size`: the smallest design that passes, with the limit that binds. */
import { Command } from 'commander';
import { studyNamed } from '../../shipped/study-named.ts';
import { planSize } from '../../studies/size/plan.ts';
import { size } from '../../studies/size/size.ts';
import type { StudyFile } from '../../studies/written/study-file.ts';
import { againWords } from '../options/again.ts';
import { saidAs } from '../options/typed-options.ts';
import { varyOption } from '../options/vary-option.ts';
import { readChanged, readFile } from '../study/scenarios.ts';
import { carryOutAndShow } from '../study/show.ts';
import { addStudyOptions, type StudyOptions } from '../study/study-options.ts';
import { sizeText } from '../terminal/study/size-text.ts';

interface SizeOptions extends StudyOptions {
  readonly vary: readonly (readonly [string, string])[];
  readonly all?: boolean;
  readonly rules?: boolean;
  readonly answerAlone?: boolean;
}

const examples = `Examples:
  buswake size trays
  buswake size pulse-train --vary "trays.count=4 to 10"
  buswake size single-step --vary "banks.capacitance=20 mF to 160 mF in 15" --out out/banks
`;

export function sizeCommand(): Command {
  const command = new Command('size');
  return addStudyOptions(command, 'study', 'in parts')
    .addOption(varyOption('what is varied, least first: "trays.count=6 to 14"; once or twice'))
    .option('--all', 'run every candidate, whatever the search would leave out')
    .option(
      '--answer-alone',
      'leave out what would help next: as many runs again as one candidate takes, for each lever',
    )
    .option('--rules', 'print the first estimate by hand, rule by rule')
    .addHelpText('before', examples)
    .action(sizeAndPrint);
}

async function sizeAndPrint(name: string, options: SizeOptions, command: Command): Promise<void> {
  const again = againWords(command, name);
  const named = studyNamed(name, 'size', options.set, readFile);
  const study: StudyFile = options.vary.length > 0 ? { ...named, vary: options.vary } : named;
  const paths = options.vary.map(([path]) => path);
  const plan = await saidAs('--vary', paths, () =>
    planSize(study, readChanged, { all: options.all === true, levers: options.answerAlone !== true }),
  );
  await carryOutAndShow(size, plan, { options, again }, (report, { next, paint }) =>
    sizeText(report, next, paint, options.rules === true),
  );
}
