/** A sizing as Markdown and as CSV. */
import { formatPercent } from '../../quantity.ts';
import type { Line } from '../estimate/line.ts';
import { csvTable, markdownTable, type Row } from '../tables.ts';
import type { SizeReport } from './size.ts';

export function sizeSentence(report: SizeReport): string {
  return [mainSentence(report), ...tightestWords(report), ...conditionWords(report)].join(' ');
}

/** What keeps least of its allowance at the answer, where that is not what the answer hangs on. */
function tightestWords(report: SizeReport): readonly string[] {
  const { binding, situations } = report;
  const answer = answerOf(report);
  if (answer === undefined || binding?.why !== 'breaks one step below') return [];
  if (binding.limit === answer.binding && binding.situation === answer.situation) return [];
  const where = situations.length === 1 ? '' : ` in ${answer.situation}`;
  return [`Tightest is ${answer.binding}${where} with ${formatPercent(answer.tightest_ratio, 2)} left.`];
}

function conditionWords(report: SizeReport): readonly string[] {
  const open = answerOf(report)?.not_judged ?? [];
  return open.length === 0 ? [] : [`It passes with conditions: not judged ${open.join(', ')}.`];
}

/** The candidate that is the answer. */
function answerOf({ result, candidates }: SizeReport): SizeReport['candidates'][number] | undefined {
  if (result === null) return undefined;
  return candidates.find(({ values }) =>
    Object.entries(result).every(([path, value]) => values[path] === value),
  );
}

function mainSentence(report: SizeReport): string {
  const { result, binding } = report;
  const named =
    result === null
      ? 'Nothing that was tried passes'
      : `${Object.entries(result)
          .map(([path, value]) => `${path} = ${value}`)
          .join(', ')} is ${report.ordered ? 'the least that passes' : 'the roomiest of those that pass'}`;
  if (binding === null) return `${named}.`;
  const where = `${binding.situation === '' ? '' : ` in ${binding.situation}`}${binding.node === null ? '' : ` at ${binding.node}`}`;
  const room = formatPercent(Math.abs(binding.headroom_ratio), 2);
  if (result === null) {
    return binding.headroom_ratio < 0
      ? `${named}: ${binding.limit} never clears${where}; nearest at ${binding.at}, beyond its allowance by ${room}.`
      : `${named}: limits exclude each other; nearest at ${binding.at}.`;
  }
  return binding.why === 'breaks one step below'
    ? `${named}: one step less breaks ${binding.limit}${where}; here it keeps ${room} of its allowance.`
    : binding.why === 'tightest at the roomiest'
      ? `${named}: ${binding.limit} is tightest${where} with ${room} left.`
      : `${named} of those tried, and nothing less was: ${binding.limit} is tightest${where} with ${room} left.`;
}

export const lineHead = ['rule', 'what', 'load', 'formula', 'numbers', 'asks for'] as const;

export function lineRow({ rule, title, about, formula, numbers, asks }: Line): Row {
  return [rule, title, about, formula, numbers, asks];
}

export const constraintHead = [
  'limit',
  'smallest that meets it',
  'tightest in',
  'headroom at the result',
  '',
] as const;

export function constraintRows({ table, ordered }: SizeReport): Row[] {
  return table.map(({ limit, smallest, or_less, situation, headroom_ratio, decides }) => [
    limit,
    ordered ? (smallest === null ? 'none' : `${smallest}${or_less ? ' or less' : ''}`) : '',
    situation,
    formatPercent(headroom_ratio, 2),
    decides && ordered ? 'decides' : '',
  ]);
}

export const candidateHead = ['candidate', 'passes', 'tightest headroom', 'binding', 'in'] as const;

export function candidateRows({ candidates }: SizeReport): Row[] {
  return candidates.map(({ values, passes, tightest_ratio, binding, situation, not_judged }) => [
    Object.values(values).join(', '),
    !passes ? 'no' : not_judged.length === 0 ? 'yes' : 'with conditions',
    formatPercent(tightest_ratio, 2),
    binding,
    situation,
  ]);
}

export const situationHead = ['situation', 'least that passes it'] as const;

export function situationRows({ situations }: SizeReport): Row[] {
  return situations.map(({ name, smallest }) => [name, smallest ?? 'none']);
}

export const leverHead = ['change', 'at', 'passes', 'tightest headroom', 'binding'] as const;

export function leverRows({ levers }: SizeReport): Row[] {
  return levers.map(({ name, at, passes, tightest_ratio, without_ratio, binding }) => [
    name,
    at,
    passes ? 'yes' : 'no',
    `${formatPercent(tightest_ratio, 2)} (${formatPercent(without_ratio, 2)} without)`,
    binding,
  ]);
}

export function sizeMarkdown(report: SizeReport): string {
  const { title, study, about, estimate, front, monotone, runs, situations, candidates } = report;
  return [
    `# ${title === '' ? study : title}`,
    about,
    `**${sizeSentence(report)}**`,
    `Every candidate was run in ${situations.length === 1 ? 'one situation' : `${situations.length} situations`}: ${situations.map(({ name }) => name).join('; ')}. ${runs} simulations. Order: ${monotone.note}.`,
    ...(estimate === null
      ? []
      : [
          '## First estimate by hand',
          markdownTable(lineHead, estimate.lines.map(lineRow)),
          `Energy alone would buy ${estimate.energyAlone}; rule ${estimate.most?.rule} (${estimate.most?.title.toLowerCase()}) asks for ${estimate.most?.trays}; with factors and a spare ${estimate.withSpare}.`,
        ]),
    '## What each limit asks for',
    markdownTable(constraintHead, constraintRows(report)),
    ...(situations.length > 1
      ? ['## What each situation asks for', markdownTable(situationHead, situationRows(report))]
      : []),
    '## Candidates',
    markdownTable(candidateHead, candidateRows(report)),
    ...(front.length === 0
      ? []
      : [
          '## Least of the second for each of the first',
          markdownTable(
            ['first', 'least'],
            front.map(({ first, second }) => [first, second]),
          ),
        ]),
    '## What would help next',
    markdownTable(leverHead, leverRows(report)),
    '## To repeat the tightest run of a candidate',
    ...candidates.map(({ values, replay }) => `- ${Object.values(values).join(', ')}: \`${replay}\``),
    '',
  ].join('\n\n');
}

export function sizeCsv(report: SizeReport): string {
  return csvTable(constraintHead, constraintRows(report));
}
