/** `buswake response`: frequency responses, bus impedance, loop gains, modes and their owners. */
import { Command, InvalidArgumentError } from 'commander';
import { readShortText } from '../../disk/read-file.ts';
import { scenarioFile } from '../../shipped/scenario-named.ts';
import { planResponse } from '../../studies/response/plan.ts';
import { response } from '../../studies/response/response.ts';
import { againWords } from '../options/again.ts';
import { powerOf, powerWord } from '../options/power-option.ts';
import { repeatable } from '../options/repeatable-option.ts';
import { needs, ruled } from '../options/rules/rule.ts';
import { readChanged } from '../study/scenarios.ts';
import { carryOutAndShow } from '../study/show.ts';
import { addStudyOptions, type StudyOptions } from '../study/study-options.ts';
import { pointsText, responseText } from '../terminal/study/response-text.ts';

interface ResponseOptions extends StudyOptions {
  readonly at?: string;
  readonly node: readonly string[];
  readonly shelf?: string;
  readonly points?: number;
  readonly measured?: string;
  readonly curve?: string;
}

const examples = `Examples:
  buswake response single-step
  buswake response single-step --at "120 kW" --node sled-1 --node A.S3
  buswake response single-step --measured points.csv --curve "load to rectifier current"
  buswake response single-step --set shelves.control_delay="75 us" --json
`;

export function responseCommand(): Command {
  const command = new Command('response');
  addStudyOptions(command, 'scenario', 'whole')
    .option(
      '--at <power>',
      'load of the settled point; the highest steady load of the scenario by default',
      powerWord,
    )
    .addOption(repeatable('--node <node>', 'node whose impedance is wanted', 'the lowest sled'))
    .option('--shelf <shelf>', 'shelf whose share and power loops are shown')
    .option('--points <n>', 'points of each curve', points)
    .option('--measured <file>', 'points to lay over: columns frequency_Hz, gain_dB, phase_deg, curve')
    .option('--curve <name>', 'curve that the points belong to, where the file has no column for it')
    .addHelpText('before', examples)
    .action(respondAndPrint);
  return ruled(command, [
    needs('--curve', ['--measured'], 'points that belong to that curve', 'add --measured FILE'),
  ]);
}

function points(word: string): number {
  const n = Number(word);
  if (!Number.isInteger(n) || n < 3 || n > 2000) throw new InvalidArgumentError('write 3 to 2000.');
  return n;
}

async function respondAndPrint(name: string, options: ResponseOptions, command: Command): Promise<void> {
  const again = againWords(command, name);
  const { set, at, node, shelf, measured: file, curve } = options;
  const plan = planResponse(
    {
      scenario: scenarioFile(name),
      changes: set,
      load_W: powerOf(at),
      nodes: node,
      shelf: shelf ?? null,
      points: options.points ?? null,
      measured: file === undefined ? null : { path: file, ...readShortText(file) },
      curve: curve ?? null,
    },
    readChanged,
  );
  await carryOutAndShow(response, plan, { options, again }, (report, { next, paint }) =>
    [
      responseText(plan.scenario.title, report, paint),
      ...(report.measured.length === 0 ? [] : ['', pointsText(report.measured, paint)]),
      '',
      `${paint('strong', 'next')}  ${next}`,
    ].join('\n'),
  );
}
