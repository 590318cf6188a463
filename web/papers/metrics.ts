/** Metrics over the judged window. */
import { judgedApart } from '../../src/analysis/judge/judged-apart.ts';
import { metricWords } from '../../src/analysis/words/metric-words.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';
import { moment, withUnit } from '../numbers.ts';
import { paper } from './paper.ts';

export function metrics({ report }: Bundle): HTMLElement {
  const rows = metricWords.map(([metric, words, unit]) =>
    html(
      'tr',
      {},
      html('th', { scope: 'row' }, words),
      html('td', {}, withUnit(report.metrics[metric], unit)),
    ),
  );
  const { from, to } = report.window_s;
  const apart = judgedApart(report).map(
    ({ finding, judged }) => `${finding.id} leaves moments out and judges ${withUnit(judged, finding.unit)}`,
  );
  return paper(
    'Metrics',
    [`over the judged window, ${moment(from, 1)} to ${moment(to, 1)}`, ...apart].join('; '),
    html('table', {}, ...rows),
  );
}
