/** The cabinet whole at the moment that binds, every bar and unit with its figures, and its sums. */
import type { Bundle } from '../../src/bundle/format.ts';
import { drawCabinet, largestCurrent } from '../cabinet/drawing.ts';
import { makeSums } from '../cabinet/sums.ts';
import { html } from '../dom.ts';
import { instant, withUnit } from '../numbers.ts';
import type { Record } from '../record.ts';

/** Laid out so wide that no figures touch, and shrunk to the paper. */
const laidOut_px = 960;

export function cabinetPart(record: Record, bundle: Bundle, at_s: number): HTMLElement {
  const bucket = record.bucketAt(at_s);
  const largest_A = largestCurrent(record);
  const { root, layout, pieces } = drawCabinet(bundle, record, largest_A, laidOut_px);
  for (const piece of pieces) piece.update(bucket);
  root.setAttribute('viewBox', `0 0 ${layout.width} ${layout.height}`);
  root.setAttribute('role', 'img');
  root.setAttribute('aria-label', `the cabinet at ${instant(at_s)}`);
  const sums = makeSums(record, bundle);
  sums.update(bucket);
  return html(
    'section',
    { class: 'cabinet-part' },
    html('h2', {}, `The cabinet at ${instant(at_s)}`),
    html(
      'p',
      { class: 'note' },
      `Width of a bar: its current, the widest ${withUnit(largest_A, 'A')}; arrows: where it flows.`,
    ),
    html('div', { class: 'stage' }, root),
    sums.table,
  );
}
