/** `buswake rating`: the largest load, or any scaled number, that passes. */

import { Command, Option } from 'commander';
import { counted } from '../../base/counted.ts';
import { Shelf } from '../../studies/bench/run-trial.ts';
import { type RatingReport, rating, ratingCount, ratingPart } from '../../studies/rating/rating.ts';
import {
  curveHead,
  curveRows,
  ratingCsv,
  ratingHead,
  ratingMarkdown,
  ratingRows,
  ratingSentence,
  steadyWords,
} from '../../studies/rating/report.ts';
import { statesNotes, statesWords } from '../../studies/states.ts';
import type { StudyFile } from '../../studies/study-file.ts';
import { againWords } from '../again.ts';
import { jsonText, studyReportName, writeStudyFiles } from '../disk/study-files.ts';
import { isOwn, partLine, refuseEmptyPart } from '../options/parts.ts';
import { addStudyOptions, type StudyOptions, studyNamed, withBench } from '../options/study-options.ts';
import { studyExit } from '../study-exit.ts';
import { wrap } from '../terminal/columns.ts';
import { type Paint, paintFor } from '../terminal/paint.ts';
import { nextWords, tableText } from '../terminal/study-text.ts';

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
  return addStudyOptions(
    new Command('rating').description('find the largest load, or any scaled number, that passes'),
  )
    .addOption(
      new Option('--scale <path>', 'what is scaled; repeatable')
        .argParser(collect)
        .default([], 'every power of the load'),
    )
    .option('--from <share>', 'smallest scale (50 %)')
    .option('--to <share>', 'largest scale (150 %)')
    .option('--within <share>', 'steps of the scale (1 %)')
    .option('--duty <list>', 'pulsed against steady load, over these duties')
    .option('--period <list>', 'pulsed against steady load, over these periods')
    .option('--all', 'run every scale, whatever the search would leave out')
    .addHelpText('before', examples)
    .action(ratingAndPrint);
}

function collect(word: string, before: readonly string[]): readonly string[] {
  return [...before, word];
}

async function ratingAndPrint(name: string, options: RatingCommandOptions, command: Command): Promise<void> {
  const again = againWords(command, name);
  const study = withWords(studyNamed(name, 'rating', options.set), options);
  const { words } = study;
  const asked = {
    duties: listOf(words.get('duty')),
    periods: listOf(words.get('period')),
    all: options.all === true,
  };
  const identity = { ...study, words: Object.fromEntries(study.words), inputs: [], ...asked };
  const { part } = options;
  if (part !== undefined) {
    const shelf = new Shelf();
    const count = ratingCount(study, (trial) => shelf.read(trial), asked);
    refuseEmptyPart(part, count, 'ratings');
    const done = await withBench(study, options, { identity }, ({ context }) =>
      ratingPart(study, context, asked, isOwn(part)),
    );
    if (done !== null) process.stdout.write(partLine(part, done, count, 'ratings', options.out));
    return;
  }
  const report = await withBench(study, options, { identity }, ({ context }) =>
    rating(study, context, asked),
  );
  if (report === null) return;
  if (options.out !== undefined) {
    writeStudyFiles(options.out, {
      [studyReportName]: jsonText(report),
      'study.md': ratingMarkdown(report),
      'table.csv': ratingCsv(report),
    });
  }
  process.exitCode = studyExit(report.states, report.scale_ratio !== null);
  const paint = paintFor(process.stdout, options.color);
  if (options.json === true) process.stdout.write(jsonText(report));
  else if (options.quiet === true) process.stdout.write(`${ratingSentence(report)}\n`);
  else process.stdout.write(`${ratingText(report, nextWords(options.out, again), paint)}\n`);
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

function listOf(text: string | undefined): readonly string[] {
  return (text ?? '')
    .split(',')
    .map((word) => word.trim())
    .filter((word) => word !== '');
}

export function ratingText(report: RatingReport, next: string, paint: Paint): string {
  const { steady, table, runs } = report;
  const lowest = table.find(({ scale_ratio }) => scale_ratio === report.scale_ratio);
  return [
    ...wrap(ratingSentence(report), 120, '  '),
    paint('faint', `${counted(runs, 'simulation')}: ${statesWords(report.states)}`),
    ...statesNotes(report.states).flatMap((note) => wrap(`  ${note}`, 120, '  ')),
    ...(table.length > 1 ? ['', ...tableText(ratingHead, ratingRows(report), paint)] : []),
    ...(steady === null
      ? []
      : ['', ...wrap(steadyWords(report), 120, '  '), '', ...tableText(curveHead, curveRows(report), paint)]),
    '',
    paint('faint', `to repeat it: ${lowest?.replay ?? ''}`),
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}
