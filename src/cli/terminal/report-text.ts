/**
 * A judged run for a terminal: verdict, what it rests on, the limits that bind, outcome, a few numbers, what to do
 * next. A run that passes fits 25 lines of 80 columns; `verbose` prints everything else too.
 */

import type { Report } from '../../analysis/judge/report.ts';
import { cautionLines, shockLine } from '../../analysis/words/cautions.ts';
import { numberText } from '../../analysis/words/number-text.ts';
import { basisText } from './basis-text.ts';
import { wrap } from './columns.ts';
import { findingsText } from './findings-text.ts';
import { gridText } from './grid-text.ts';
import { apartText, fewMetrics, metricsText } from './metrics-text.ts';
import type { Paint, Style } from './paint.ts';

const verdictWords: Readonly<Record<Report['verdict'], readonly [string, Style]>> = {
  pass: ['PASS', 'good'],
  pass_with_conditions: ['PASS WITH CONDITIONS', 'open'],
  fail: ['FAIL', 'bad'],
  inconclusive: ['INCONCLUSIVE', 'open'],
};

const scopeInShort = 'An estimate from averaged models, not a safety certification. All of it: -v.';

/** A terminal's worth of lines, and how many passes are shown of those that fit. */
const fits = 25;
const passesMost = 6;
const passesLeast = 1;

export interface TextOptions {
  /** What to do next, one sentence. */
  readonly next: string;
  readonly width: number;
  readonly paint: Paint;
  readonly verbose: boolean;
}

/** The verdict line alone: what `-q` prints. */
export function verdictLine(report: Report, paint: Paint): string {
  const [word, style] = verdictWords[report.verdict];
  return `${paint(style, word)}  ${said(report)}`;
}

export function reportText(report: Report, options: TextOptions): string {
  if (options.verbose) return lines(report, options, passesMost).join('\n');
  for (let passes = passesMost; ; passes--) {
    const text = lines(report, options, passes);
    if (text.length <= fits || passes === passesLeast) return text.join('\n');
  }
}

function lines(report: Report, { next, width, paint, verbose }: TextOptions, passes: number): string[] {
  const scope = verbose ? cautionLines(report.cautions) : wrap(scopeOf(report), width);
  const [nextFirst = '', ...nextRest] = wrap(`next    ${next}`, width, '        ');
  return [
    ...headline(report, width, paint),
    ...wrap(heading(report), width, '  ').map((line) => paint('faint', line)),
    ...basisText(report.basis, width, paint, verbose),
    '',
    ...findingsText(report.findings, { width, paint, verbose, passes }),
    ...ledThere(report, width),
    ...(verbose ? inFull(report, width) : inShort(report, width)),
    nextFirst.replace('next', paint('strong', 'next')),
    ...nextRest,
    ...scope.map((line) => paint('faint', line)),
  ];
}

/** Beside it what the voltage of the bus alone makes dangerous. */
function scopeOf({ cautions }: Report): string {
  return [shockLine(cautions), scopeInShort].filter((line) => line !== null).join(' ');
}

/** The summary without the word that stands before it. */
function said({ summary }: Report): string {
  return summary.replace(/^[^:]*: /, '');
}

/** The verdict line, broken to the width. */
function headline(report: Report, width: number, paint: Paint): string[] {
  const [word, style] = verdictWords[report.verdict];
  const [first = '', ...rest] = wrap(`${word}  ${said(report)}`, width, '  ');
  return [`${paint(style, word)}${first.slice(word.length)}`, ...rest];
}

function heading({ scenario, window_s: { from, to }, judged_on }: Report): string {
  const day = judged_on === null ? '' : `; judged on ${judged_on}`;
  return `${scenario.title}: ${span(to - from)} judged, from ${span(from)} to ${span(to)}${day}`;
}

function inShort(report: Report, width: number): string[] {
  return [
    ...wrap(`outcome ${report.outcome.kind}: ${report.outcome.because}`, width, '        '),
    ...fewMetrics(report, width),
    engineInShort(report),
  ];
}

function inFull(report: Report, width: number): string[] {
  return [
    ...outcomeText(report, width),
    '',
    ...metricsText(report, width),
    ...apartText(report, width),
    ...gridText(report, width),
    energyText(report),
    engineText(report),
    ...loadText(report, width),
    '',
  ];
}

/** What became of the cabinet, and how it came to it. */
function outcomeText({ outcome }: Report, width: number): string[] {
  return [
    '',
    ...wrap(`outcome ${outcome.kind}: ${outcome.because}.`, width, '        '),
    ...outcome.chain.flatMap((s) => wrap(`  ${s}`, width, '    ')),
  ];
}

/** What saturated or switched before the binding failure. */
function ledThere(report: Report, width: number): string[] {
  const binding = report.findings[0];
  if (binding === undefined || binding.verdict !== 'fail' || binding.chain.length === 0) return [];
  return [
    `Before ${binding.id} was exceeded:`,
    ...binding.chain.flatMap((s) => wrap(`  ${s}`, width, '    ')),
  ];
}

function energyText(report: Report): string {
  const { input_J, load_J, loss_J, stored_J, residual_ratio, residual_loss_ratio } = report.energy;
  const joules = (x: number | null): string => (x === null ? 'none' : numberText(x, 'J'));
  const drawn = stored_J !== null && stored_J < 0;
  const stored = drawn ? `- ${joules(-stored_J)} from storage` : `+ ${joules(stored_J)} stored`;
  const share = (x: number | null): string => (x === null ? 'none' : x === 0 ? '0' : x.toExponential(1));
  return (
    `energy  ${joules(input_J)} in = ${joules(load_J)} load + ${joules(loss_J)} lost ${stored}; ` +
    `unaccounted ${share(residual_ratio)} of throughput, ${share(residual_loss_ratio)} of losses`
  );
}

function engineText(report: Report): string {
  const { step_s, steps, states, nodes, mode_retries, wall_s, realtime_ratio } = report.engine;
  const speed =
    wall_s === null || realtime_ratio === null
      ? ''
      : `; ${wall_s.toFixed(2)} s, ${numberText(realtime_ratio, '')} times real time`;
  return `engine  ${steps} steps from ${numberText(step_s, 's')}, ${states} states, ${nodes} nodes, ${mode_retries} retried${speed}`;
}

/** Audit and steps: whether the numbers hold, in a line. */
function engineInShort({ energy, engine: { step_s, steps, realtime_ratio } }: Report): string {
  const speed = realtime_ratio === null ? '' : `; ${numberText(realtime_ratio, '', 2)} × real time`;
  const { residual_ratio: share } = energy;
  const audit =
    share === null ? 'without a number' : `closes to ${share === 0 ? '0' : share.toExponential(1)}`;
  return `engine  energy audit ${audit}; ${steps} steps from ${numberText(step_s, 's')}${speed}`;
}

function loadText(report: Report, width: number): string[] {
  return report.load.statement.flatMap((sentence, k) =>
    wrap(`${k === 0 ? 'load    ' : '        '}${sentence}`, width, '          '),
  );
}

function span(time_s: number): string {
  return `${Number(time_s.toFixed(3))} s`;
}
