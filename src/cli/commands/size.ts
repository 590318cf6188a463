/** `buswake size`: the smallest design that passes, with the limit that binds. */

import { Command, InvalidArgumentError, Option } from 'commander';
import { counted } from '../../base/counted.ts';
import { BadInput } from '../../base/problem.ts';
import { Shelf } from '../../studies/bench/run-trial.ts';
import type { Estimate } from '../../studies/estimate/estimate.ts';
import {
  candidateHead,
  candidateRows,
  constraintHead,
  constraintRows,
  leverHead,
  leverRows,
  situationHead,
  situationRows,
  sizeCsv,
  sizeMarkdown,
  sizeSentence,
  sizeWord,
} from '../../studies/size/report.ts';
import { type SizeReport, size, sizeGrid } from '../../studies/size/size.ts';
import { statesNotes, statesWords } from '../../studies/states.ts';
import type { StudyFile } from '../../studies/study-file.ts';
import type { Trial } from '../../studies/trial.ts';
import { againWords } from '../again.ts';
import { jsonText, studyReportName, writeStudyFiles } from '../disk/study-files.ts';
import { isOwn, partLine, refuseEmptyPart } from '../options/parts.ts';
import { addStudyOptions, type StudyOptions, studyNamed, withBench } from '../options/study-options.ts';
import { saidAs } from '../options/typed-options.ts';
import { studyExit } from '../study-exit.ts';
import { wrap } from '../terminal/columns.ts';
import { type Paint, paintFor } from '../terminal/paint.ts';
import { nextWords, tableText } from '../terminal/study-text.ts';

interface SizeOptions extends StudyOptions {
  readonly vary: readonly (readonly [string, string])[];
  readonly all?: boolean;
}

const examples = `Examples:
  buswake size trays
  buswake size pulse-train --vary "trays.count=4 to 10"
  buswake size single-step --vary "banks.capacitance=20 mF to 160 mF in 15" --out out/banks
`;

const width = 120;

export function sizeCommand(): Command {
  return addStudyOptions(
    new Command('size').description('find the smallest design that passes every limit, and what binds'),
  )
    .addOption(varyOption())
    .option('--all', 'run every candidate, whatever the search would leave out')
    .addHelpText('before', examples)
    .action(sizeAndPrint);
}

function varyOption(): Option {
  return new Option(
    '--vary <path=values>',
    'what is varied, least first: "trays.count=6 to 14"; once or twice',
  )
    .argParser((word: string, before: readonly (readonly [string, string])[]) => {
      const cut = word.indexOf('=');
      if (cut < 1)
        throw new InvalidArgumentError('write it as path=values, for example "trays.count=6 to 14".');
      return [...before, [word.slice(0, cut).trim(), word.slice(cut + 1).trim()] as const];
    })
    .default([], 'as the study says');
}

async function sizeAndPrint(name: string, options: SizeOptions, command: Command): Promise<void> {
  const again = againWords(command, name);
  const read = studyNamed(name, 'size', options.set);
  const study: StudyFile = options.vary.length > 0 ? { ...read, vary: options.vary } : read;
  refuseAxes(study, name);
  const report = await saidAs(
    '--vary',
    options.vary.map(([path]) => path),
    () => sizeOrPart(study, options),
  );
  if (report === null) return;
  if (options.out !== undefined) {
    writeStudyFiles(options.out, {
      [studyReportName]: jsonText(report),
      'study.md': sizeMarkdown(report),
      'table.csv': sizeCsv(report),
    });
  }
  process.exitCode = studyExit(report.states, report.result !== null);
  const paint = paintFor(process.stdout, options.color);
  if (options.json === true) process.stdout.write(jsonText(report));
  else if (options.quiet === true) process.stdout.write(`${sizeSentence(report)}\n`);
  else process.stdout.write(`${sizeText(report, nextWords(options.out, again), paint)}\n`);
}

/** The report; null where the study was stopped, or was a part and is told of. */
async function sizeOrPart(study: StudyFile, options: SizeOptions): Promise<SizeReport | null> {
  const { part, merge } = options;
  const shelf = new Shelf();
  const grid = (): readonly Trial[] => sizeGrid(study, (trial) => shelf.read(trial));
  if (part !== undefined) {
    const trials = grid();
    refuseEmptyPart(part, trials.length, 'simulations');
    const own = trials.filter((_, k) => isOwn(part)(k));
    const done = await withBench(study, options, {}, ({ context }) => context.run(own));
    if (done !== null)
      process.stdout.write(partLine(part, done.length, trials.length, 'simulations', options.out));
    return null;
  }
  // What would help next is known only once the search is through: no part has run it.
  return withBench(study, options, { online: true }, async ({ context, bench }) => {
    if (merge !== undefined) bench.refuseMissing(grid());
    return size(study, context, { all: options.all === true });
  });
}

function refuseAxes(study: StudyFile, name: string): void {
  if (study.vary.length === 1 || study.vary.length === 2) return;
  throw new BadInput([
    {
      severity: 'error',
      path: 'vary',
      found: study.vary.length === 0 ? `nothing to vary in ${name}` : `${study.vary.length} paths to vary`,
      expected: 'one path or two',
      mend: 'give for example --vary "trays.count=6 to 14"',
    },
  ]);
}

export function sizeText(report: SizeReport, next: string, paint: Paint): string {
  const { estimate, front, monotone, runs, situations } = report;
  return [
    ...wrap(
      `${paint(sizeWord(report) === 'FOUND' ? 'good' : report.result === null ? 'bad' : 'strong', sizeWord(report))}  ${sizeSentence(report)}`,
      width,
      '       ',
    ),
    paint('faint', `${counted(runs, 'simulation')}: ${statesWords(report.states)}; ${monotone.note}`),
    ...statesNotes(report.states).flatMap((note) => wrap(`  ${note}`, width, '  ')),
    ...(estimate === null
      ? []
      : [
          '',
          paint('strong', 'first estimate by hand'),
          ...estimateText(estimate, (line) => paint('faint', line)),
        ]),
    '',
    paint('strong', 'what each limit requires'),
    ...tableText(constraintHead, constraintRows(report).slice(0, 12), paint),
    '',
    paint('strong', 'candidates, each in its tightest of ') +
      paint('strong', situations.length === 1 ? 'one situation' : `${situations.length} situations`),
    ...tableText(candidateHead, candidateRows(report), paint),
    ...(situations.length > 1
      ? [
          '',
          paint('strong', 'what each situation requires'),
          ...tableText(situationHead, situationRows(report), paint),
        ]
      : []),
    ...(front.length === 0
      ? []
      : [
          '',
          paint('strong', 'least of the second for each of the first'),
          ...tableText(
            ['first', 'least'],
            front.map(({ first, second }) => [first, second ?? 'none']),
            paint,
          ),
        ]),
    '',
    paint('strong', 'what would help next'),
    ...tableText(leverHead, leverRows(report), paint),
    '',
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}

/** Rule, numbers → what it requires, and below it the formula; `faint` paints the formula. */
export function estimateText(
  { lines, energyAlone, most, withSpare }: Estimate,
  faint: (line: string) => string = (line) => line,
): string[] {
  return [
    ...lines.flatMap(({ rule, title, about, formula, numbers, asks }) => [
      ...wrap(
        `  ${String(rule).padStart(2)}  ${title}${about === '' ? '' : ` (${about})`}: ${numbers} → ${asks}`,
        width,
        '      ',
      ),
      ...wrap(faint(`      ${formula}`), width, '      '),
    ]),
    `  Energy alone would require ${energyAlone}; rule ${most?.rule} requires ${most?.trays}; with factors and a spare ${withSpare}.`,
  ];
}
