/** `buswake designs`: the designs that pass and that no other one beats, each with its bill of parts. */
import { Command } from 'commander';
import { studyNamed } from '../../shipped/study-named.ts';
import { designs } from '../../studies/designs/designs.ts';
import { planDesigns } from '../../studies/designs/plan.ts';
import type { StudyFile } from '../../studies/written/study-file.ts';
import { againWords } from '../options/again.ts';
import { repeatable } from '../options/repeatable-option.ts';
import { saidAs } from '../options/typed-options.ts';
import { varyOption } from '../options/vary-option.ts';
import { readChanged, readFile } from '../study/scenarios.ts';
import { carryOutAndShow } from '../study/show.ts';
import { addStudyOptions, type StudyOptions } from '../study/study-options.ts';
import { withLine } from '../terminal/reading-line.ts';
import { designsText } from '../terminal/study/designs-text.ts';

interface DesignsOptions extends StudyOptions {
  readonly vary: readonly (readonly [string, string])[];
  readonly objective: readonly string[];
}

const examples = `Examples:
  buswake designs single-step --vary "trays.count=8 to 14" --vary "banks.count=1 to 4" --objective losses --objective headroom
  buswake designs choice.yaml --out out/choice
`;

export function designsCommand(): Command {
  const command = new Command('designs');
  return addStudyOptions(command, 'study', 'in parts')
    .addOption(varyOption('what is varied, all of it together: "trays.count=8 to 14"; repeatable'))
    .addOption(
      repeatable(
        '--objective <name>',
        'what designs are compared by: cost, mass, rack_units, losses, headroom or yield; one or two',
        'as the study says',
      ),
    )
    .addHelpText('before', examples)
    .action(designsAndPrint);
}

async function designsAndPrint(name: string, options: DesignsOptions, command: Command): Promise<void> {
  const again = againWords(command, name);
  const study = withOptions(studyNamed(name, 'designs', options.set, readFile), options);
  const paths = options.vary.map(([path]) => path);
  const plan = await saidAs('--vary', paths, () =>
    withLine((say) =>
      planDesigns(study, readChanged, (done, all) => {
        if (options.quiet !== true) say(() => `reading designs: ${done} of ${all}`);
      }),
    ),
  );
  await carryOutAndShow(designs, plan, { options, again }, (report, { next, paint }) =>
    designsText(report, next, paint),
  );
}

/** What the command line says stands over what the study says. */
function withOptions(study: StudyFile, { vary, objective }: DesignsOptions): StudyFile {
  const words = new Map(study.words);
  if (objective.length > 0) words.set('objectives', objective.join(', '));
  return { ...study, words, ...(vary.length > 0 ? { vary } : {}) };
}
