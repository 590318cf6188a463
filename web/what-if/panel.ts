/** What if: the kept run again under changes, in the page itself, with the engine that made it. */
import type { Bundle } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';
import type { Lens } from '../lens.ts';
import type { Record } from '../record.ts';
import { Trial } from './trial.ts';

/** Nothing is unpacked or started before it is asked for. */
export function showWhatIf(host: HTMLElement, lens: Lens, record: Record, bundle: Bundle): void {
  const start = html('button', { type: 'button', id: 'what-if-start' }, 'Change something');
  host.append(
    html(
      'header',
      {},
      html('h3', {}, 'What if'),
      html('p', {}, 'run it again under changes, here: the page holds the engine and all inputs'),
      html('div', { class: 'controls' }, start),
    ),
  );
  start.addEventListener('click', async () => {
    start.disabled = true;
    const opened = await new Trial(host, lens, record, bundle).open();
    if (opened) start.remove();
    else start.disabled = false;
  });
}
