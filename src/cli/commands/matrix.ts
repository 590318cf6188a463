/** `buswake matrix`: faults × corners × redundancy, one verdict each. */
import { Command } from 'commander';
import { Shelf } from '../../studies/bench/run-trial.ts';
import { type MatrixReport, matrixReport, planMatrix } from '../../studies/matrix/matrix.ts';
import {
  cornerWords,
  gridHead,
  gridRows,
  legendOf,
  matrixCsv,
  matrixMarkdown,
  matrixSentence,
  rippleNote,
  shortHead,
  shortRows,
} from '../../studies/matrix/report.ts';
import { statesNotes } from '../../studies/states.ts';
import { againWords } from '../again.ts';
import { jsonText, studyReportName, writeStudyFiles } from '../disk/study-files.ts';
import { isOwn, partLine, refuseEmptyPart } from '../options/parts.ts';
import { addStudyOptions, type StudyOptions, studyNamed, withBench } from '../options/study-options.ts';
import { studyExit } from '../study-exit.ts';
import { wrap } from '../terminal/columns.ts';
import { type Paint, paintFor } from '../terminal/paint.ts';
import { nextWords, tableText } from '../terminal/study-text.ts';

const examples = `Examples:
  buswake matrix faults --out out/faults
  buswake matrix pulse-train
  buswake matrix faults --part 2/4 --out out/part-2
`;

/** Faults of a scenario that comes without a study: one of each kind, a fifth into the run. */
const usualFaults = { units: 'one' } as const;

export function matrixCommand(): Command {
  return addStudyOptions(
    new Command('matrix').description('run faults × corners × redundancy, one verdict each'),
  )
    .addHelpText('before', examples)
    .action(matrixAndPrint);
}

async function matrixAndPrint(name: string, options: StudyOptions, command: Command): Promise<void> {
  const again = againWords(command, name);
  const shelf = new Shelf();
  const named = studyNamed(name, 'matrix', options.set);
  const study =
    named.inputs.length > 0 ? named : { ...named, everyFault: { ...usualFaults, at: '1 s', back: '2 s' } };
  const plan = planMatrix(study, (trial) => shelf.read(trial));
  const { part } = options;
  if (part !== undefined) refuseEmptyPart(part, plan.trials.length, 'cells');
  const own = part === undefined ? plan.trials : plan.trials.filter((_, k) => isOwn(part)(k));
  const outcomes = await withBench(study, options, {}, ({ context }) => context.run(own));
  if (outcomes === null) return;
  if (part !== undefined) {
    process.stdout.write(partLine(part, outcomes.length, plan.trials.length, 'cells', options.out));
    return;
  }
  const report = matrixReport(plan, outcomes);
  if (options.out !== undefined) {
    writeStudyFiles(options.out, {
      [studyReportName]: jsonText(report),
      'study.md': matrixMarkdown(report),
      'cells.csv': matrixCsv(report),
    });
  }
  process.exitCode = studyExit(report.states, report.passed === report.runs);
  const paint = paintFor(process.stdout, options.color);
  if (options.json === true) process.stdout.write(jsonText(report));
  else if (options.quiet === true) process.stdout.write(`${matrixSentence(report)}\n`);
  else process.stdout.write(`${matrixText(report, nextWords(options.out, again), paint)}\n`);
}

/** Every cell with its limit where that fits; otherwise the letters, and of each row the tightest. */
function gridText(report: MatrixReport, paint: Paint): string[] {
  const whole = tableText(gridHead(report), gridRows(report), paint);
  if (Math.max(...whole.map((line) => line.length)) <= 120) return whole;
  return [
    ...tableText(shortHead(report), shortRows(report), paint),
    ...wrap(
      paint('faint', `  ${cornerWords(report)}; the limit of every cell: report, page, --json`),
      120,
      '  ',
    ),
  ];
}

export function matrixText(report: MatrixReport, next: string, paint: Paint): string {
  const broken = report.cells.filter(({ letter }) => letter !== 'P' && letter !== 'C');
  return [
    ...wrap(matrixSentence(report), 120, '  '),
    ...statesNotes(report.states).flatMap((note) => wrap(`  ${note}`, 120, '  ')),
    paint('faint', legendOf(report)),
    ...(rippleNote(report) === '' ? [] : wrap(paint('faint', rippleNote(report)), 120)),
    '',
    ...gridText(report, paint),
    ...(broken.length === 0
      ? []
      : [
          '',
          paint('strong', 'to repeat what does not pass'),
          ...broken.slice(0, 12).map(({ replay }) => `  ${replay}`),
        ]),
    '',
    `${paint('strong', 'next')}  ${next}`,
  ].join('\n');
}
