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
    const draw = (): void => {
      const channel = port.channels[Number(choice.value)];
      if (channel !== undefined) drawn.replaceChildren(pollsOverTruth(channel, result.recording));
    };
    choice.addEventListener('change', draw);
    draw();
    const [first = '', ...others] = [...portSentences(port), ...beyondSentences(port)];
    const section = paper(
      `What port ${port.port} would have seen`,
      first,
      ...others.map((sentence) => html('p', { class: 'note' }, sentence)),
      choice,
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
