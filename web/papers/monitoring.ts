/** What polls of the management network would have seen: for each port its sentences, the polls over the truth, a row a channel. */
import {
  beyondSentences,
  monitoringHead,
  monitoringRows,
  portSentences,
} from '../../src/analysis/words/monitoring-words.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import type { PolledPort } from '../../src/monitoring/monitoring.ts';
import { html } from '../dom.ts';
import { watchWidth } from '../width.ts';
import { paper } from './paper.ts';
import { pollsOverTruth } from './polls-drawing.ts';

/** Nothing where the scenario declares no port. */
export function monitoring({ report, result }: Bundle): HTMLElement[] {
  return (report.monitoring?.ports ?? []).map((port) => {
    const choice = html(
      'select',
      { 'aria-label': `channel that port ${port.port} polls` },
      ...port.channels.map(({ channel }, k) => html('option', { value: k }, channel)),
    );
    const drawn = html('div', { class: 'polls' });
    let width = 0;
    const draw = (): void => {
      const channel = port.channels[Number(choice.value)];
      if (channel === undefined || width === 0) return;
      drawn.replaceChildren(pollsOverTruth(channel, result.recording, width));
    };
    choice.addEventListener('change', draw);
    watchWidth(drawn, (now) => {
      width = now;
      draw();
    });
    const [first = '', ...others] = [...portSentences(port), ...beyondSentences(port)];
    const section = paper(
      `What port ${port.port} would have seen`,
      first,
      ...others.map((sentence) => html('p', { class: 'note' }, sentence)),
      html(
        'p',
        { class: 'polls-key' },
        choice,
        html(
          'span',
          {},
          html('span', { class: 'held-mark', 'aria-hidden': 'true' }),
          'readings, each held until the next',
        ),
        html(
          'span',
          {},
          html('span', { class: 'truth-mark', 'aria-hidden': 'true' }),
          'what happened, least to greatest',
        ),
      ),
      drawn,
      html('div', { class: 'scroll', tabindex: 0 }, tableOf(port)),
    );
    section.classList.add('wide');
    return section;
  });
}

function tableOf(port: PolledPort): HTMLElement {
  const head = html('tr', {}, ...monitoringHead.map((cell) => html('th', { scope: 'col' }, cell)));
  const rows = monitoringRows(port).map(([name = '', ...cells]) =>
    html('tr', {}, html('th', { scope: 'row' }, name), ...cells.map((cell) => html('td', {}, cell))),
  );
  return html('table', { class: 'responses' }, html('thead', {}, head), html('tbody', {}, ...rows));
}
