/** A sizing as Markdown and as CSV. */
import { formatPercent } from '../../base/quantity.ts';
import type { EstimateLine } from '../estimate/line.ts';
import { csvTable, markdownTable, type PlainRow } from '../tables.ts';
import { headroomWords } from '../trials/headroom-words.ts';
import { numbersOf } from '../trials/run-outcome.ts';
import { letterWords, restsOn, simulationsWords, statesNotes, statesWords } from '../trials/states.ts';
import { answerOf, isUndecided } from './judge.ts';
import type { SizeReport } from './report.ts';

export function sizeSentence(report: SizeReport): string {
  return [mainSentence(report), ...tightestWords(report), ...conditionWords(report)].join(' ');
}

/** What keeps least of its allowance at the answer, where that is not what the answer hangs on. */
function tightestWords(report: SizeReport): readonly string[] {
  const { binding, situations } = report;
  const answer = answerOf(report);
  if (answer === undefined || binding?.why !== 'exceeded one step below') return [];
  if (binding.limit === answer.binding && binding.situation === answer.situation) return [];
  const where = situations.length === 1 ? '' : ` in ${answer.situation}`;
  const left =
    answer.tightest_ratio === 0 ? 'at its limit' : `with ${formatPercent(answer.tightest_ratio, 2)} left`;
  return [`Tightest is ${answer.binding}${where}, ${left}.`];
}

function conditionWords(report: SizeReport): readonly string[] {
  const answer = answerOf(report);
  return answer === undefined ? [] : restsOn(answer);
}

function mainSentence(report: SizeReport): string {
  const { result, binding } = report;
  if (isUndecided(report)) return `No candidate came to a verdict: ${statesWords(report.states)}.`;
  const passing = answerOf(report)?.letter === 'C' ? 'passes with conditions' : 'passes';
  const named =
    result === null
      ? 'Nothing that was tried passes'
      : `${Object.entries(result)
          .map(([path, value]) => `${path} = ${value}`)
          .join(', ')} is ${report.ordered ? `the least that ${passing}` : roomiestWords(report)}`;
  if (binding === null) return `${named}.`;
  const where = `${binding.situation === '' ? '' : ` in ${binding.situation}`}${binding.node === null ? '' : ` at ${binding.node}`}`;
  const { numbers, below_ratio } = binding;
  const room =
    binding.headroom_ratio === 0
      ? 'it is at its limit'
      : `it keeps ${formatPercent(binding.headroom_ratio, 2)} of its allowance`;
  const own = numbers === null || numbers.value === null ? '' : ` (${numbersOf(numbers)})`;
  if (result === null) {
    return binding.headroom_ratio < 0
      ? `${named}: ${binding.limit.replaceAll('_', ' ')} never clears${where}; nearest at ${binding.at}${own}.`
      : `${named}: limits exclude each other; nearest at ${binding.at}.`;
  }
  return binding.why === 'exceeded one step below'
    ? `${named}: one step less exceeds ${binding.limit.replaceAll('_', ' ')}${where}${below_ratio === null ? '' : ` by ${formatPercent(-below_ratio, 2)} of its allowance`}; here ${room}.`
    : binding.why === 'tightest at the roomiest'
      ? `${named}: ${binding.limit} is tightest${where}, ${room}.`
      : `${named} of those tried, and nothing less was: ${binding.limit} is tightest${where}, ${room}.`;
}

/** What is said of the place that is taken, and of those that are no worse. */
function roomiestWords({ alike }: Pick<SizeReport, 'alike'>): string {
  const most = 'with the most headroom of those that pass';
  if (alike.length === 0) return `the one ${most}`;
  return `the first of ${alike.length + 1} that are alike ${most} (the others: ${alike.join('; ')})`;
}

export const lineHead = ['rule', 'what', 'load', 'formula', 'numbers', 'requires'] as const;

export function lineRow({ rule, title, about, formula, numbers, asks }: EstimateLine): PlainRow {
  return [rule, title, about, formula, numbers, asks];
}

export const constraintHead = [
  'limit',
  'smallest that meets it',
  'tightest in',
  'headroom at the result',
  '',
] as const;

export function constraintRows({ table, ordered }: SizeReport): PlainRow[] {
  return table.map(({ limit, smallest, or_less, situation, headroom_ratio, decides }) => [
    limit,
    ordered ? (smallest === null ? 'none' : `${smallest}${or_less ? ' or less' : ''}`) : '',
    situation,
    headroomWords(headroom_ratio),
    decides && ordered ? 'decides' : '',
  ]);
}

export const candidateHead = ['candidate', 'verdict', 'tightest headroom', 'binding', 'in'] as const;

export function candidateRows({ candidates }: SizeReport): PlainRow[] {
  return candidates.map(({ values, letter, warnings, tightest_ratio, binding, situation }) => [
    Object.values(values).join(', '),
    `${letterWords[letter]}${warnings.length === 0 ? '' : ', warned'}`,
    letter === 'N' || letter === 'E' ? '' : headroomWords(tightest_ratio),
    binding,
    situation,
  ]);
}

export const situationHead = ['situation', 'least that passes it'] as const;

export function situationRows({ situations }: SizeReport): PlainRow[] {
  return situations.map(({ name, smallest }) => [name, smallest ?? 'none']);
}

export const leverHead = ['change', 'at', '', 'verdict', 'tightest headroom', 'binding'] as const;

export function leverRows({ levers }: SizeReport): PlainRow[] {
  return levers.map(({ name, at, effect, letter, tightest_ratio, without_ratio, binding }) => [
    name,
    at,
    effect,
    letterWords[letter],
    effect === 'changes nothing'
      ? headroomWords(without_ratio)
      : `${headroomWords(tightest_ratio)} (${headroomWords(without_ratio)} without)`,
    binding,
  ]);
}

/** How many simulations there were, and how those of the candidates came out. */
export function sizeSimulations({ runs, states }: SizeReport): string {
  return simulationsWords(runs, states, ['candidates', 'levers']);
}

/** What all runs rest on and were warned of, in sentences; an answer names its own. */
export function sizeNotes({ result, states }: SizeReport): readonly string[] {
  return result === null ? statesNotes(states) : [];
}

export function sizeMarkdown(report: SizeReport): string {
  const { title, study, about, estimate, front, monotone, situations, candidates } = report;
  return [
    `# ${title === '' ? study : title}`,
    about,
    `**${sizeSentence(report)}**`,
    `Every candidate was run in ${situations.length === 1 ? 'one situation' : `${situations.length} situations`}: ${situations.map(({ name }) => name).join('; ')}. ${sizeSimulations(report)}. Order: ${monotone.note}.`,
    ...sizeNotes(report),
    ...(estimate === null
      ? []
      : [
          '## First estimate by hand',
          markdownTable(lineHead, estimate.lines.map(lineRow)),
          `Energy alone would require ${estimate.energyAlone}; rule ${estimate.most?.rule} (${estimate.most?.title.toLowerCase()}) requires ${estimate.most?.trays}; with factors and a spare ${estimate.withSpare}.`,
        ]),
    '## What each limit requires',
    markdownTable(constraintHead, constraintRows(report)),
    ...(situations.length > 1
      ? ['## What each situation requires', markdownTable(situationHead, situationRows(report))]
      : []),
    '## Candidates',
    markdownTable(candidateHead, candidateRows(report)),
    ...(front.length === 0
      ? []
      : [
          '## Frontier: least of the second parameter for each value of the first',
          markdownTable(
            ['first parameter', 'least of the second'],
            front.map(({ first, second }) => [first, second]),
          ),
        ]),
    ...(report.levers.length === 0
      ? []
      : ['## What would help next', markdownTable(leverHead, leverRows(report))]),
    '## To repeat the tightest run of a candidate',
    ...candidates.map(({ values, replay }) => `- ${Object.values(values).join(', ')}: \`${replay}\``),
    '',
  ].join('\n\n');
}

export function sizeCsv(report: SizeReport): string {
  return csvTable(constraintHead, constraintRows(report));
}
