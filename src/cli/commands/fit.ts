/** `buswake fit`: adjusts named parameters to a measurement. */
import { Command } from 'commander';
import { scenarioFile } from '../../shipped/scenario-named.ts';
import { fit } from '../../studies/fit/fit-study.ts';
import { planFit } from '../../studies/fit/plan.ts';
import { againWords } from '../options/again.ts';
import { addMeasuredOptions, askedMeasurement, type MeasuredOptions } from '../options/measured-options.ts';
import { repeatable } from '../options/repeatable-option.ts';
import { measuredRules } from '../options/rules/measured-rules.ts';
import { ruled } from '../options/rules/rule.ts';
import { readChanged, readMeasured } from '../study/scenarios.ts';
import { carryOutAndShow } from '../study/show.ts';
import { addStudyOptions, type StudyOptions } from '../study/study-options.ts';
import { fitText } from '../terminal/study/fit-text.ts';

interface FitOptions extends StudyOptions, MeasuredOptions {
  readonly adjust: readonly string[];
}

const examples = `Examples:
  buswake fit single-step --measured bench.csv --adjust shelves.droop
  buswake fit single-step --measured bench.csv --map v_bus=A.S1.voltage_V --adjust "shelves.droop = 0.4 mΩ to 1.2 mΩ" --json
`;

export function fitCommand(): Command {
  const command = new Command('fit');
  addStudyOptions(command, 'scenario', 'whole').addOption(
    repeatable(
      '--adjust <path>',
      'parameter to adjust, within the range of its model or "PATH = LOW to HIGH"',
      'none',
    ),
  );
  addMeasuredOptions(command).addHelpText('before', examples).action(fitAndPrint);
  return ruled(command, measuredRules);
}

async function fitAndPrint(name: string, options: FitOptions, command: Command): Promise<void> {
  const again = againWords(command, name);
  const { set: changes, adjust } = options;
  const measured = askedMeasurement(options);
  const plan = planFit(
    { scenario: scenarioFile(name), changes, adjust, measured },
    readChanged,
    readMeasured,
  );
  await carryOutAndShow(fit, plan, { options, again }, (report, { next, paint }) =>
    fitText(report, next, paint),
  );
}
