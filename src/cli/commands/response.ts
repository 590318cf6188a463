/** `buswake response`: frequency responses, bus impedance, loop gains, modes and their owners. */
import { Command, InvalidArgumentError, Option } from 'commander';
import { readShortText } from '../../disk/read-file.ts';
import { scenarioFile } from '../../shipped/scenario-named.ts';
import { type SummingPoint, summingPointNames } from '../../studies/response/inject/drives.ts';
import { injectedLines } from '../../studies/response/inject/points.ts';
import { planResponse } from '../../studies/response/plan.ts';
import { response } from '../../studies/response/response.ts';
import { againWords } from '../options/again.ts';
import { powerOf, powerWord } from '../options/power-option.ts';
import { repeatable } from '../options/repeatable-option.ts';
import { needs, ruled } from '../options/rules/rule.ts';
import { readChanged } from '../study/scenarios.ts';
import { carryOutAndShow } from '../study/show.ts';
import { addStudyOptions, type StudyOptions, wholeAboveZero, wholeUpTo } from '../study/study-options.ts';
import { overText } from '../terminal/study/over-text.ts';
import { headText, pointsText, responseText } from '../terminal/study/response-text.ts';

interface ResponseOptions extends StudyOptions {
  readonly at?: string;
  readonly node: readonly string[];
  readonly shelf?: string;
  readonly state: readonly string[];
  readonly over?: boolean;
  readonly loads?: string;
  readonly samples?: number;
  readonly seed?: number;
  readonly inject?: SummingPoint;
  readonly frequencies?: string;
  readonly chirp?: string;
  readonly amplitude?: string;
  readonly clamps?: boolean;
  readonly points?: number;
  readonly measured?: string;
  readonly curve?: string;
}

const examples = `Examples:
  buswake response single-step
  buswake response single-step --at "120 kW" --node sled-1 --node A.S3
  buswake response single-step --at "120 kW" --state "ac-loss all" --state "battery-fail B3"
  buswake response single-step --over --samples 16 --out out/worst
  buswake response single-step --inject load --frequencies "500 Hz to 5 kHz in 4" --clamps
  buswake response single-step --inject current --chirp "2.5 s"
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
    .addOption(
      repeatable(
        '--state <event>',
        'what has come to stay, as an event says it without a time: "ac-loss all", "tray-out T4"',
        'as built',
      ),
    )
    .option('--over', 'the worst of every margin over loads, states, ages, temperatures and tolerances')
    .option('--loads <values>', 'loads of --over, "24 kW to 240 kW in 4"; up to --at by default')
    .option(
      '--samples <n>',
      `samples of the tolerances that the models state, about each of the worst points of --over (${usualSamples}); 0: none, and no corners`,
      samples,
    )
    .option('--seed <n>', 'of the samples (1)', wholeAboveZero)
    .addOption(
      new Option(
        '--inject <place>',
        'put sines or a chirp into runs there, as on a bench, and lay what comes of them over the curves',
      ).choices(summingPointNames),
    )
    .option(
      '--frequencies <values>',
      'of the sines, "500 Hz to 5 kHz in 4" (20 Hz | 60 Hz | 250 Hz | 900 Hz | 2300 Hz | 5 kHz)',
    )
    .option('--chirp <time>', 'one sweep through the frequencies in that time, in place of a sine at each')
    .option('--amplitude <value>', 'height of what is put in, "400 W", "10 mV", "2 A"; small by default')
    .option('--clamps', 'also the amplitude at which clamps begin, at each frequency, and whose')
    .option('--points <n>', 'points of each curve', points)
    .option('--measured <file>', 'points to lay over: columns frequency_Hz, gain_dB, phase_deg, curve')
    .option('--curve <name>', 'curve that the points belong to, where the file has no column for it')
    .addHelpText('before', examples)
    .action(respondAndPrint);
  return ruled(command, [
    ...['--loads', '--samples', '--seed'].map((option) =>
      needs(option, ['--over'], 'a search for the worst margins', 'add --over'),
    ),
    ...['--frequencies', '--chirp', '--amplitude', '--clamps'].map((option) =>
      needs(option, ['--inject'], 'a place to put sines in', 'add --inject load'),
    ),
    needs('--curve', ['--measured'], 'points that belong to that curve', 'add --measured FILE'),
  ]);
}

/** Samples about each of the worst points, where nobody says how many. */
const usualSamples = 16;

function samples(word: string): number {
  return word === '0' ? 0 : wholeUpTo(1000, 'more would take hours and say little more')(word);
}

function points(word: string): number {
  const n = Number(word);
  if (!Number.isInteger(n) || n < 3 || n > 2000) throw new InvalidArgumentError('write 3 to 2000.');
  return n;
}

async function respondAndPrint(name: string, options: ResponseOptions, command: Command): Promise<void> {
  const again = againWords(command, name);
  const { set, at, node, shelf, state, inject, over, loads, seed = 1, measured: file, curve } = options;
  const plan = planResponse(
    {
      scenario: scenarioFile(name),
      changes: set,
      load_W: powerOf(at),
      state,
      over: over === true ? { loads: loads ?? null, samples: options.samples ?? usualSamples, seed } : null,
      inject:
        inject === undefined
          ? null
          : {
              point: inject,
              frequencies: options.frequencies ?? null,
              chirp: options.chirp ?? null,
              amplitude: options.amplitude ?? null,
              clamps: options.clamps === true,
            },
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
      ...(report.over === null
        ? [responseText(plan.scenario.title, report, paint)]
        : [headText(plan.scenario.title, report, paint), '', overText(report.over, paint)]),
      ...(report.measured.length === 0 ? [] : ['', pointsText(report.measured, paint)]),
      ...injectedLines(report.injected),
      '',
      `${paint('strong', 'next')}  ${next}`,
    ].join('\n'),
  );
}
