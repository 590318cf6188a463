/** How it was computed. */
import { digits } from '../../src/base/digits.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';
import { duration } from '../numbers.ts';
import { paper } from './paper.ts';

export function engine({ report, result }: Bundle): HTMLElement {
  const { engine: e, tool_version, seed, status } = report;
  const rows: readonly (readonly [string, string])[] = [
    ['status', status],
    ['default step', duration(e.step_s)],
    ['steps', e.steps.toLocaleString('en')],
    ['states, nodes', `${e.states}, ${e.nodes}`],
    ['steps retried in eight substeps', String(e.mode_retries)],
    ['factorisations', result.counters.factorisations.toLocaleString('en')],
    ['wall time', e.wall_s === null ? '–' : duration(Number(e.wall_s.toPrecision(3)))],
    ['speed', e.realtime_ratio === null ? '–' : `${digits(e.realtime_ratio)} × real time`],
    ['seed', String(seed)],
    ['tool version', tool_version],
  ];
  return paper(
    'Engine',
    'the same input gives the same bits',
    html(
      'table',
      {},
      ...rows.map(([name, value]) =>
        html('tr', {}, html('th', { scope: 'row' }, name), html('td', {}, value)),
      ),
    ),
  );
}
