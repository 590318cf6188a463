/** A spread as Markdown and as CSV. */
import { metricWords } from '../../analysis/words/metric-words.ts';
import { numberText } from '../../analysis/words/number-text.ts';
import { counted } from '../../base/counted.ts';
import { formatPercent } from '../../base/quantity.ts';
import { settingColumn } from '../setting-column.ts';
import { csvTable, markdownTable, type PlainRow } from '../tables.ts';
import { statesNotes, statesWords } from '../trials/states.ts';
import { askWords } from './ask-next.ts';
import { isUndecided } from './judge.ts';
import { rareSentence, regionHead, regionRows } from './rare/words.ts';
import type { SpreadReport } from './report.ts';

export function spreadSentence(report: SpreadReport): string {
  const { yield_ratio, interval_ratio, runs, passed, fails, stopped_early, asked, states } = report;
  const [low, high] = interval_ratio;
  const first = fails[0];
  const broken =
    first === undefined
      ? 'none failed'
      : `${first.limit.replaceAll('_', ' ')} most often, ${counted(first.count, 'time')}`;
  const early = stopped_early ? ` Enough was known after ${runs} of ${asked}.` : '';
  const told = runs - states.numerical;
  if (isUndecided(report)) return `No sample came to a verdict: ${statesWords(states)}.`;
  const open =
    [states.passed, states.conditional].includes(runs) && states.warned === 0
      ? ''
      : ` Of ${counted(runs, 'sample')} ${statesWords(states)}.`;
  const some =
    states.conditional === 0
      ? 'pass'
      : states.passed === 0
        ? 'pass with conditions'
        : 'pass, some with conditions';
  return `${passed} of ${told} ${some}: yield ${formatPercent(yield_ratio)}, between ${formatPercent(low)} and ${formatPercent(high)} with 95 % confidence (Wilson); ${broken}.${open}${early}`;
}

export const sensitivityHead = ['what', 'rank correlation', ''] as const;

export function sensitivityRows({ sensitivity }: SpreadReport): PlainRow[] {
  return sensitivity
    .slice(0, 15)
    .map(({ path, rank_correlation, clear }) => [
      path,
      rank_correlation.toFixed(2),
      clear ? '' : 'within chance',
    ]);
}

export const askHead = ['ask next for', 'held', 'yield then', 'more', 'today'] as const;

/** What to ask a supplier for, the most that is gained first. */
export function askRows({ ask_next }: SpreadReport): PlainRow[] {
  return ask_next.map(({ path, demand, yield_ratio, gain_ratio, source }) => [
    path,
    demand,
    formatPercent(yield_ratio, 3),
    formatPercent(gain_ratio, 2),
    source ?? "the study's own",
  ]);
}

/** The first of them as a sentence; null where none is clear. */
export function askSentence({ ask_next }: SpreadReport): string | null {
  const [first] = ask_next;
  return first === undefined ? null : `Ask next for ${askWords(first, (ratio) => formatPercent(ratio, 3))}.`;
}

export const worstHead = ['sample', 'verdict', 'headroom', 'binding', 'at'] as const;

export function worstRows({ worst }: SpreadReport): PlainRow[] {
  return worst.map(({ sample, verdict, headroom_ratio, binding, node }) => [
    sample,
    verdict.replaceAll('_', ' '),
    formatPercent(headroom_ratio, 3),
    binding,
    node,
  ]);
}

export const metricHead = ['metric', 'least', '5 %', 'median', '95 %', 'most'] as const;

/** What moves most beside its median comes first. */
export function metricRows({ metrics }: SpreadReport): PlainRow[] {
  const moves = ({ min, p50, max }: SpreadReport['metrics'][number]): number =>
    max === min ? 0 : (max - min) / Math.max(Math.abs(p50), max - min);
  return metrics
    .toSorted((a, b) => moves(b) - moves(a))
    .map(({ name, min, p5, p50, p95, max }) => {
      const [, words, unit] = metricWords.find(([key]) => key === name) ?? [name, name, ''];
      return [words, ...[min, p5, p50, p95, max].map((value) => numberText(value, unit))];
    });
}

export function spreadMarkdown(report: SpreadReport): string {
  const { title, study, about, sampling, seed, of, noise, fails, worst } = report;
  return [
    `# ${title === '' ? study : title}`,
    about,
    `**${spreadSentence(report)}**`,
    ...(report.rare === undefined
      ? []
      : [`**${rareSentence(report.rare)}**`, markdownTable(regionHead, regionRows(report.rare))]),
    `Sampling: ${sampling}, seed ${seed}. The interval is that of independent samples; a Latin hypercube usually does better.`,
    ...statesNotes(report.states),
    '## What it depends on',
    `Rank correlation of each drawn value with ${of}; below ${noise.toFixed(2)} is what chance gives.`,
    markdownTable(sensitivityHead, sensitivityRows(report)),
    '## What to ask for next',
    report.ask_next.length === 0
      ? 'Nothing that was drawn moves the yield beyond chance.'
      : `The yield among samples in which a figure lies in the better half of what was drawn: what a data sheet or a requirement that holds it there would buy.\n\n${markdownTable(askHead, askRows(report))}`,
    '## Exceeded limits',
    fails.length === 0
      ? 'Nothing.'
      : markdownTable(
          ['limit', 'times'],
          fails.map(({ limit, count }) => [limit, count]),
        ),
    '## Metrics',
    markdownTable(metricHead, metricRows(report)),
    '## The worst',
    markdownTable(worstHead, worstRows(report)),
    ...worst.map(({ sample, replay }) => `- sample ${sample}: \`${replay}\``),
    '',
  ].join('\n\n');
}

/** One row per sample: what came out and what was drawn, numbers in SI with the unit in the column's name. */
export function spreadCsv(report: SpreadReport): string {
  const drawn = report.drawn.map(({ path, values }) => settingColumn(path, values));
  return csvTable(
    [
      'sample',
      'verdict',
      'status',
      'headroom_ratio',
      'binding',
      'conditions',
      'warnings',
      report.of,
      ...drawn.map(({ name }) => name),
    ],
    report.samples.map(({ verdict, status, headroom_ratio, binding, conditions, warnings, value }, k) => [
      k + 1,
      verdict,
      status,
      headroom_ratio,
      binding,
      conditions.join('; '),
      warnings.join('; '),
      value,
      ...drawn.map(({ cells }) => cells[k] ?? null),
    ]),
  );
}
