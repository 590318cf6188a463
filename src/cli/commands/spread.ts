/** `buswake spread`: tolerances sampled, the yield with its interval, the worst cases to repeat. */
import { Command, InvalidArgumentError, Option } from 'commander';
import { BadInput } from '../../base/problem.ts';
import { Shelf } from '../../studies/bench/run-trial.ts';
import { replayOf } from '../../studies/replay.ts';
import {
  metricHead,
  metricRows,
  sensitivityHead,
  sensitivityRows,
  spreadCsv,
  spreadMarkdown,
  spreadSentence,
  worstHead,
  worstRows,
} from '../../studies/spread/report.ts';
import {
  isEnough,
  planSpread,
  type SpreadPlan,
  type SpreadReport,
  spreadReport,
} from '../../studies/spread/spread.ts';
import { statesNotes } from '../../studies/states.ts';
import type { StudyFile } from '../../studies/study-file.ts';
import { againWords } from '../again.ts';
import { jsonText, studyReportName, writeStudyFiles } from '../disk/study-files.ts';
import { isOwn, partLine, refuseEmptyPart } from '../options/parts.ts';
import {
  addStudyOptions,
  type StudyOptions,
  studyNamed,
  wholeAboveZero,
  withBench,
} from '../options/study-options.ts';
import { wrap } from '../terminal/columns.ts';
import { type Paint, paintFor } from '../terminal/paint.ts';
import { nextWords, tableText } from '../terminal/study-text.ts';

interface SpreadOptions extends StudyOptions {
  readonly tolerance: readonly (readonly [string, string])[];
  readonly samples?: string;
  readonly seed?: string;
  readonly sampling?: string;
  readonly halfWidth?: string;
  readonly of?: string;
  readonly models?: boolean;
  readonly sample?: number;
}

const examples = `Examples:
  buswake spread tolerances --out out/spread
  buswake spread single-step --samples 100 --tolerance "shelves.set_point_offset=uniform plus 0.25 %"
  buswake spread tolerances --part 3/8 --out out/part-3
  buswake spread tolerances --merge out/part-1 out/part-2 --out out/whole
`;

export function spreadCommand(): Command {
  return addStudyOptions(
    new Command('spread').description('sample tolerances: the yield, what it depends on, the worst sample'),
  )
    .addOption(
      new Option(
        '--tolerance <path=text>',
        'what is drawn and how: by 5 % (a share of the value), plus 1 % (added), from 1 ms to 2 ms; repeatable',
      )
        .argParser(collect)
        .default([], 'as the study says'),
    )
    .option('--models', 'draw every value whose model states a low and a high')
    .option('--samples <n>', 'how many (200)')
    .option('--seed <n>', 'of all draws (1)')
    .option('--sampling <how>', 'latin-hypercube or plain')
    .option('--half-width <share>', 'end once the yield is known this well, for example 2 %')
    .option('--of <what>', 'what sensitivity is about: headroom or a metric')
    .option('--sample <n>', 'print the command that repeats one sample, and run nothing', wholeAboveZero)
    .addHelpText('before', examples)
    .action(spreadAndPrint);
}

function collect(
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
  const study = withWords(studyNamed(name, 'spread', options.set), options);
  const shelf = new Shelf();
  const plan = planSpread(study, (trial) => shelf.read(trial));
  if (options.sample !== undefined) {
    process.stdout.write(
      `${replayOf(plan.trials[options.sample - 1] ?? refuseSample(plan, options.sample))}\n`,
    );
    return;
  }
  const { part } = options;
  if (part !== undefined) {
    refuseEmptyPart(part, plan.samples, 'samples');
    const own = plan.trials.filter((_, k) => isOwn(part)(k));
    const done = await withBench(study, options, {}, ({ context }) => context.run(own));
    if (done !== null)
      process.stdout.write(partLine(part, done.length, plan.samples, 'samples', options.out));
    return;
  }
  const outcomes = await withBench(study, options, {}, ({ context }) =>
    context.run(plan.trials, isEnough(plan)),
  );
  if (outcomes === null) return;
  const report = spreadReport(plan, outcomes);
  if (options.out !== undefined) {
    writeStudyFiles(options.out, {
      [studyReportName]: jsonText(report),
      'study.md': spreadMarkdown(report),
      'samples.csv': spreadCsv(report),
    });
  }
  const paint = paintFor(process.stdout, options.color);
  if (options.json === true) process.stdout.write(jsonText(report));
  else if (options.quiet === true) process.stdout.write(`${spreadSentence(report)}\n`);
  else process.stdout.write(`${spreadText(report, again, nextWords(options.out, again), paint)}\n`);
}

/** What the command line says stands over what the study says. */
function withWords(study: StudyFile, options: SpreadOptions): StudyFile {
  const words = new Map(study.words);
  const { samples, seed, sampling, halfWidth, of, models } = options;
  for (const [key, word] of [
    ['samples', samples],
    ['seed', seed],
    ['sampling', sampling],
    ['half_width', halfWidth],
    ['of', of],
    ['models', models === true ? 'yes' : undefined],
  ] as const) {
    if (word !== undefined) words.set(key, word);
  }
  return { ...study, words, tolerances: [...study.tolerances, ...options.tolerance] };
}

function refuseSample({ samples }: SpreadPlan, sample: number): never {
  throw new BadInput([
    {
      severity: 'error',
      found: `sample ${sample}`,
      expected: `a sample from 1 to ${samples}`,
      mend: 'name one of them',
    },
  ]);
}

export function spreadText(report: SpreadReport, again: string, next: string, paint: Paint): string {
  const { sampling, seed, of, noise, worst } = report;
  return [
    ...wrap(spreadSentence(report), 120, '  '),
    paint('faint', `${sampling}, seed ${seed}`),
    ...statesNotes(report.states).flatMap((note) => wrap(`  ${note}`, 120, '  ')),
    '',
    paint('strong', `what ${of} depends on`) + paint('faint', `  (chance gives up to ${noise.toFixed(2)})`),
    ...tableText(sensitivityHead, sensitivityRows(report).slice(0, 8), paint, new Set([1])),
    '',
    paint('strong', 'metrics'),
    ...tableText(metricHead, metricRows(report), paint, new Set([1, 2, 3, 4, 5])),
    '',
    paint('strong', 'the worst'),
    ...tableText(worstHead, worstRows(report), paint, new Set([0])),
    paint('faint', `  the command that repeats the worst: ${again} --sample ${worst[0]?.sample ?? 1}`),
    '',
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}
