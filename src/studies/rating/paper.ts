/** A rating as Markdown and as CSV. */
import { counted } from '../../base/counted.ts';
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import { csvTable, markdownTable, type PlainRow } from '../tables.ts';
import { numbersOf } from '../trials/run-outcome.ts';
import { letterWords, restsOn, statesNotes, statesWords } from '../trials/states.ts';
import { commonPulsedRatio, isUndecided } from './judge.ts';
import type { RatingReport } from './report.ts';

export function ratingSentence(report: RatingReport): string {
  const { scale_ratio, binding, table, scaled, states } = report;
  const row = table.find((one) => one.scale_ratio === scale_ratio);
  const what = scaled.join(', ');
  const where = table.length > 1 && row !== undefined ? ` in ${row.situation}` : '';
  if (row === undefined) return `No scale of ${what} was tried.`;
  if (isUndecided(report)) return `No scale of ${what} came to a verdict: ${statesWords(states)}.`;
  const own = row.exceeded === null ? '' : ` (${numbersOf(row.exceeded)})`;
  if (scale_ratio === null) {
    const near = formatPercent(row.nearest_ratio ?? 0);
    return row.headroom_ratio < 0
      ? `No scale of ${what} that was tried passes: ${binding} never clears${where}; nearest at ${near}${own}.`
      : `No scale of ${what} that was tried passes${where}: limits exclude each other; nearest at ${near}.`;
  }
  const values = Object.entries(row.values)
    .map(([path, value]) => `${path} ${value}`)
    .join(', ');
  const open = restsOn(row)
    .map((sentence) => ` ${sentence}`)
    .join('');
  const passes = row.letter === 'C' ? 'passes with conditions' : 'passes';
  return row.or_more
    ? `The largest scale that was tried ${passes}, ${formatPercent(scale_ratio)} (${values}); ${binding} is tightest${where}.${open}`
    : `${formatPercent(scale_ratio)} of the load ${passes} (${values}); one step more exceeds ${binding}${where}${own}.${open}`;
}

export const ratingHead = ['situation', 'largest scale', 'scaled', 'binding', 'note'] as const;

/** With every condition and warning of its own. */
export function ratingRows(report: RatingReport): PlainRow[] {
  return rowsOf(report, ({ conditions, warnings }) => [...conditions, ...warnings]);
}

/** What fits a screen: conditions and warnings stand with the answer. */
export function ratingShortRows(report: RatingReport): PlainRow[] {
  return rowsOf(report, () => []);
}

type Situation = RatingReport['table'][number];

function rowsOf({ table }: RatingReport, more: (row: Situation) => readonly string[]): PlainRow[] {
  return table.map((row) => {
    const { situation, scale_ratio, values, binding, letter, or_more, reversed } = row;
    return [
      situation,
      scale_ratio === null ? 'none' : `${formatPercent(scale_ratio)}${or_more ? ' or more' : ''}`,
      Object.entries(values)
        .map(([path, value]) => `${path} ${value}`)
        .join(', '),
      binding,
      [
        ...(reversed.length === 0 ? [] : [`passes again above: ${reversed.join(', ')}`]),
        ...(letter === null || letter === 'P' ? [] : [letterWords[letter]]),
        ...more(row),
      ].join('; '),
    ];
  });
}

export const curveHead = ['period', 'duty', 'high level', 'over steady', 'verdict', 'binding'] as const;

export function curveRows({ curve }: RatingReport): PlainRow[] {
  return curve.map(({ period, duty, high_W, pulsed_over_steady_ratio, letter, binding }) => [
    period,
    duty,
    high_W === null ? 'none' : formatQuantity(high_W, 'power', 4),
    pulsed_over_steady_ratio === null ? '' : formatPercent(pulsed_over_steady_ratio),
    letter === null ? 'none passes' : letterWords[letter],
    binding,
  ]);
}

/** The steady load, and the pulsed ones beside common practice. */
export function steadyWords({ steady, curve }: RatingReport): string {
  if (steady === null) return '';
  const all = curve.flatMap(({ pulsed_over_steady_ratio }) => pulsed_over_steady_ratio ?? []);
  const power = steady.power_W === null ? 'none' : formatQuantity(steady.power_W, 'power', 4);
  const span =
    all.length === 0
      ? 'no pulse train passes'
      : `pulse trains take ${formatPercent(Math.min(...all))} to ${formatPercent(Math.max(...all))} of it`;
  return `Steady: ${power}, bound by ${steady.binding}; ${span}, where common practice (no source) grants about five sixths, ${formatPercent(commonPulsedRatio)}.`;
}

/** What all runs rest on and were warned of, in sentences; an answer names its own. */
export function ratingNotes({ scale_ratio, table, states }: RatingReport): readonly string[] {
  const isAnswered = scale_ratio !== null && table.some((row) => row.scale_ratio === scale_ratio);
  return isAnswered ? [] : statesNotes(states);
}

export function ratingMarkdown(report: RatingReport): string {
  const { title, study, about, table, runs, steady } = report;
  return [
    `# ${title === '' ? study : title}`,
    about,
    `**${ratingSentence(report)}** ${counted(runs, 'simulation')}: ${statesWords(report.states)}.`,
    ...ratingNotes(report),
    markdownTable(ratingHead, ratingRows(report)),
    ...(steady === null
      ? []
      : ['## Pulsed against steady', steadyWords(report), markdownTable(curveHead, curveRows(report))]),
    '## To repeat',
    ...table.map(({ situation, replay }) => `- ${situation}: \`${replay}\``),
    ...report.curve.map(({ period, duty, replay }) => `- pulses of ${period}, ${duty} high: \`${replay}\``),
    '',
  ].join('\n\n');
}

export function ratingCsv(report: RatingReport): string {
  const { table, curve } = report;
  return curve.length === 0
    ? csvTable(
        ['situation', 'scale_ratio', 'letter', 'binding', 'headroom_ratio', 'conditions', 'warnings'],
        table.map(({ situation, scale_ratio, letter, binding, headroom_ratio, conditions, warnings }) => [
          situation,
          scale_ratio,
          letter,
          binding,
          headroom_ratio,
          conditions.join('; '),
          warnings.join('; '),
        ]),
      )
    : csvTable(
        ['period', 'duty', 'high_W', 'pulsed_over_steady_ratio', 'letter', 'binding', 'conditions'],
        curve.map(({ period, duty, high_W, pulsed_over_steady_ratio, letter, binding, conditions }) => [
          period,
          duty,
          high_W,
          pulsed_over_steady_ratio,
          letter,
          binding,
          conditions.join('; '),
        ]),
      );
}
