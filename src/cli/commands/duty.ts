/** `buswake duty`: heat, charge and life through a calendar of stretches. */
import { Command } from 'commander';
import { studyNamed } from '../../shipped/study-named.ts';
import { duty } from '../../studies/duty/duty.ts';
import { planDuty } from '../../studies/duty/plan.ts';
import type { StudyFile } from '../../studies/written/study-file.ts';
import { againWords } from '../options/again.ts';
import { readChanged, readFile } from '../study/scenarios.ts';
import { carryOutAndShow } from '../study/show.ts';
import { addStudyOptions, type StudyOptions } from '../study/study-options.ts';
import { dutyText } from '../terminal/study/duty-text.ts';

interface DutyCommandOptions extends StudyOptions {
  readonly repeat?: string;
  readonly begin?: string;
}

const examples = `Examples:
  buswake duty duty-day --out out/day
  buswake duty duty-day --repeat 365 --set trays.coolant_temperature="20 °C"
  buswake duty duty-day --begin cold
`;

export function dutyCommand(): Command {
  const command = new Command('duty');
  return addStudyOptions(command, 'study', 'whole')
    .option('--repeat <n>', 'how many times the stretches are gone through (1)')
    .option('--begin <how>', 'steady, as warm as the first stretch leaves it for good, or cold (steady)')
    .addHelpText('before', examples)
    .action(dutyAndPrint);
}

async function dutyAndPrint(name: string, options: DutyCommandOptions, command: Command): Promise<void> {
  const again = againWords(command, name);
  const study = withWords(studyNamed(name, 'duty', options.set, readFile), options);
  const plan = planDuty(study, readChanged);
  await carryOutAndShow(duty, plan, { options, again }, (report, { next, paint }) =>
    dutyText(report, next, paint),
  );
}

function withWords(study: StudyFile, { repeat, begin }: DutyCommandOptions): StudyFile {
  const words = new Map(study.words);
  if (repeat !== undefined) words.set('repeat', repeat);
  if (begin !== undefined) words.set('begin', begin);
  return { ...study, words };
}
