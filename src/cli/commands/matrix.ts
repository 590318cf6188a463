/** `buswake matrix`: faults × corners × redundancy, one verdict each. */
import { Command } from 'commander';
import { studyNamed } from '../../shipped/study-named.ts';
import { matrix } from '../../studies/matrix/matrix.ts';
import { planMatrix } from '../../studies/matrix/plan.ts';
import type { StudyFile } from '../../studies/written/study-file.ts';
import { againWords } from '../options/again.ts';
import { readChanged, readFile } from '../study/scenarios.ts';
import { carryOutAndShow } from '../study/show.ts';
import { addStudyOptions, type StudyOptions } from '../study/study-options.ts';
import { matrixText } from '../terminal/study/matrix-text.ts';

const examples = `Examples:
  buswake matrix faults --out out/faults
  buswake matrix pulse-train
  buswake matrix faults --part 2/4 --out out/part-2
`;

/** Faults of a scenario that comes without a study: one of each kind, a fifth into the run. */
const usualFaults = { units: 'one', at: '1 s', back: '2 s' } as const;

export function matrixCommand(): Command {
  const command = new Command('matrix');
  return addStudyOptions(command, 'study', 'in parts')
    .option('--pairs', 'every two of the faults at once as well')
    .option(
      '--moments <n>',
      'try each fault at so many moments of the cycle, and about the worst; the worst counts',
    )
    .addHelpText('before', examples)
    .action(matrixAndPrint);
}

interface MatrixOptions extends StudyOptions {
  readonly pairs?: boolean;
  readonly moments?: string;
}

async function matrixAndPrint(name: string, options: MatrixOptions, command: Command): Promise<void> {
  const again = againWords(command, name);
  const named = studyNamed(name, 'matrix', options.set, readFile);
  const study = named.inputs.length > 0 ? named : { ...named, everyFault: usualFaults };
  const plan = planMatrix(withWords(study, options), readChanged);
  await carryOutAndShow(matrix, plan, { options, again }, (report, { next, paint }) =>
    matrixText(report, next, paint),
  );
}

/** What the command line says stands over what the study says. */
function withWords(study: StudyFile, { pairs, moments }: MatrixOptions): StudyFile {
  const words = new Map(study.words);
  if (pairs === true) words.set('pairs', 'yes');
  if (moments !== undefined) words.set('moments', moments);
  return { ...study, words };
}
