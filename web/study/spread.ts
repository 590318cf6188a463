/** A spread: the yield with its interval, the histogram, the tornado, the worst. */
import {
  metricHead,
  metricRows,
  spreadSentence,
  worstHead,
  worstRows,
} from '../../src/studies/spread/paper.ts';
import type { SpreadReport } from '../../src/studies/spread/report.ts';
import { areClean, statesNotes } from '../../src/studies/trials/states.ts';
import { html } from '../dom.ts';
import { withUnit } from '../numbers.ts';
import { histogramOf, tornadoOf } from './bars.ts';
import { answerIn, panel, table } from './parts.ts';

export function showSpread(answer: HTMLElement, host: HTMLElement, report: SpreadReport): void {
  const { yield_ratio, states, runs, of, noise, sampling, seed, worst, fails } = report;
  answerIn(
    answer,
    withUnit(yield_ratio, 'ratio'),
    areClean(states, runs),
    spreadSentence(report),
    `${sampling}, seed ${seed}. ${statesNotes(states).join(' ')}`.trim(),
  );
  panel(
    host,
    of === 'headroom' ? 'Tightest headroom of each sample' : of,
    'Samples per bin. A line marks the limit.',
    histogramOf(report),
  );
  panel(
    host,
    'What it depends on',
    `Rank correlation of each drawn value with ${of}. Chance alone reaches ${noise.toFixed(2)}: bars within that are hollow.`,
    tornadoOf(report),
  );
  if (fails.length > 0)
    panel(
      host,
      'Exceeded limits',
      '',
      table(
        ['limit', 'samples'],
        fails.map(({ limit, count }) => [limit, count]),
      ),
    );
  panel(host, 'Metrics', '', table(metricHead, metricRows(report)));
  panel(
    host,
    'Worst samples',
    '',
    table(worstHead, worstRows(report)),
    html('div', { class: 'detail' }, ...worst.slice(0, 1).map(({ replay }) => html('code', {}, replay))),
  );
}
