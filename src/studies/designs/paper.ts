/** A study of designs as Markdown and as CSV. */
import { counted } from '../../base/counted.ts';
import { formatPercent } from '../../base/quantity.ts';
import { wordsOf } from '../search/axes.ts';
import { csvTable, markdownTable } from '../tables.ts';
import { restsOn, simulationsWords, statesNotes, statesWords } from '../trials/states.ts';
import { isUndecided } from './judge.ts';
import { isMore, type Objective, objectiveWords } from './objectives.ts';
import type { DesignRow, DesignsReport, FrontRow } from './report.ts';
import {
  billHead,
  billRows,
  designHead,
  designRow,
  designWordsHead,
  designWordsRow,
  frontHead,
  frontRows,
  valueText,
} from './tables.ts';

export function designsSentence(report: DesignsReport): string {
  const { front, designs, objectives } = report;
  const [best] = front;
  if (isUndecided(report)) return `No design came to a verdict: ${statesWords(report.states)}.`;
  if (best === undefined)
    return `None of ${counted(designs.length, 'design')} passes${nearestWords(designs)}.`;
  const by = objectives.map((objective) => objectiveWords[objective]).join(' and ');
  const of =
    front.length === 1
      ? `One of ${counted(designs.length, 'design')} is beaten by none in ${by}`
      : `${front.length} of ${counted(designs.length, 'design')} are beaten by none in ${by}`;
  const first = objectives[0]!;
  const least = `${isMore(first) ? 'most' : 'least'} ${objectiveWords[first]}`;
  return [
    `${of}; ${least}: ${designWords(best, objectives)}.`,
    `Tightest is ${bindingWords(best)}.`,
    ...restsOn(best.run),
  ].join(' ');
}

/** Of designs that all fail: the one that comes nearest, and what it fails by. */
function nearestWords(designs: readonly DesignRow[]): string {
  const run = designs.flatMap((design) => (design.run === null ? [] : [{ ...design, run: design.run }]));
  if (run.length === 0) return '';
  const { values, run: row } = run.reduce((a, b) => (b.run.tightest_ratio > a.run.tightest_ratio ? b : a));
  const { binding, situation, tightest_ratio } = row;
  const where = situation === '' ? '' : ` in ${situation}`;
  if (!(tightest_ratio < 0)) return '';
  return `; nearest is ${wordsOf(values)}, ${formatPercent(-tightest_ratio, 2)} of the allowance beyond ${binding}${where}`;
}

function designWords({ values, objectives: of }: DesignRow, objectives: readonly Objective[]): string {
  const numbers = objectives.map(
    (objective) => `${objectiveWords[objective]} ${valueText(objective, of[objective])}`,
  );
  return `${wordsOf(values)} (${numbers.join(', ')})`;
}

function bindingWords({ run: { binding, situation, tightest_ratio } }: FrontRow): string {
  const left =
    tightest_ratio === 0 ? 'at its limit' : `${formatPercent(tightest_ratio, 2)} of its allowance left`;
  return `${binding}${situation === '' ? '' : ` in ${situation}`}, ${left}`;
}

/** How many were run and how many were left out, and why nothing else was. */
export function searchWords({ designs, runs, states }: DesignsReport): string {
  const left = designs.filter(({ standing, run }) => standing === 'beaten' && run === null).length;
  const short = designs.filter(({ standing, run }) => standing === 'beaten' && run !== null).length;
  const parts = [
    `${designs.length - left} of ${counted(designs.length, 'design')} run`,
    ...(left === 0 ? [] : [`${left} left out, as one that passes beats them whatever they come to`]),
    ...(short === 0 ? [] : [`${short} ended early for the same reason`]),
  ];
  return `${simulationsWords(runs, states, ['designs', 'samples of them'])}; ${parts.join(', ')}`;
}

/** What sums of figures do not see. */
export function blindWords({ blind }: DesignsReport): readonly string[] {
  return blind.map(
    ({ objective, paths }) =>
      `${objectiveWords[objective]} is the same for every value of ${paths.join(', ')}: where that is not so, name designs that change ${objective} as well`,
  );
}

/** What all runs rest on and were warned of, in sentences; an answer names its own. */
export function designsNotes({ front, states }: DesignsReport): readonly string[] {
  return front.length === 0 ? statesNotes(states) : [];
}

export function designsMarkdown(report: DesignsReport): string {
  const { title, study, about, situations, front, designs } = report;
  return [
    `# ${title === '' ? study : title}`,
    about,
    `**${designsSentence(report)}**`,
    `Each design was run in ${situations.length === 1 ? 'one situation' : `up to ${situations.length} situations`}: ${situations.join('; ')}. ${searchWords(report)}.`,
    ...designsNotes(report),
    ...blindWords(report).map((words) => `${words}.`),
    '## The front',
    markdownTable(frontHead(report), frontRows(report)),
    ...front.flatMap(({ values, bill, run }) => [
      `## Bill of parts: ${wordsOf(values)}`,
      markdownTable(billHead, billRows(bill)),
      `Its tightest run: \`${run.replay}\``,
    ]),
    '## Every design',
    markdownTable(designWordsHead(report), designs.map(designWordsRow(report))),
    '',
  ].join('\n\n');
}

export function designsCsv(report: DesignsReport): string {
  return csvTable(designHead(report), report.designs.map(designRow(report)));
}
