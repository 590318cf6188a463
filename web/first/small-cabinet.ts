/** The cabinet small, at the moment that binds, with the unit or bar that binds marked by name. */
import type { Bundle } from '../../src/bundle/format.ts';
import type { Binding } from '../binding.ts';
import { drawCabinet, largestCurrent } from '../cabinet/drawing.ts';
import type { Piece } from '../cabinet/piece.ts';
import { html, svg } from '../dom.ts';
import { instant } from '../numbers.ts';
import type { Record } from '../record.ts';

/** Laid out this wide and then shrunk: bars and boxes keep their shape, their words are left to the large drawing. */
const laidOut_px = 1000;
/** Room kept of what names and short readings took above and below. */
const cut_px = 22;

export function smallCabinet(record: Record, bundle: Bundle, { where, time_s }: Binding): HTMLElement {
  const { root, layout, pieces } = drawCabinet(bundle, record, largestCurrent(record), laidOut_px);
  const at_s = time_s ?? record.edges_s[0] ?? 0;
  const bucket = record.bucketAt(at_s);
  for (const piece of pieces) piece.update(bucket);
  const binding = boundPieces(pieces, bundle, where);
  for (const { target } of binding) target.classList.add('binding');
  const height = layout.height - 2 * cut_px;
  root.removeAttribute('width');
  root.removeAttribute('height');
  root.setAttribute('viewBox', `60 ${cut_px} ${layout.width - 60} ${height}`);
  root.setAttribute('role', 'img');
  const moments = time_s === null ? 'at the beginning' : `at ${instant(at_s)}`;
  const marked = binding.length === 0 ? '' : `, ${where} marked`;
  root.setAttribute('aria-label', `the cabinet ${moments}${marked}`);
  // What a picture holds is no control of its own.
  for (const { target } of pieces) target.setAttribute('aria-hidden', 'true');
  const centre = { x: layout.width / 2, y: layout.height / 2 + 16 };
  if (where !== null && binding.length > 0) root.append(svg('text', { ...centre, class: 'callout' }, where));
  const caption = [`the cabinet ${moments}`, lettersOf(bundle)].filter((part) => part !== '').join(': ');
  return html('figure', { class: 'small-cabinet' }, root, html('figcaption', {}, caption));
}

/** What names begin with that stand in the drawing, and what that is; a kind of unit whose names differ has none. */
function lettersOf({ scenario: { shelves, trays, banks, batteries } }: Pick<Bundle, 'scenario'>): string {
  const kinds = [
    ['shelves', shelves],
    ['trays', trays],
    ['banks', banks],
    ['battery shelves', batteries],
  ] as const;
  return kinds
    .flatMap(([kind, units]) => {
      const letters = new Set(units.map(({ id }) => id.replace(/[^a-z].*$/i, '')));
      const [first] = letters;
      return letters.size === 1 && first !== '' ? [`${first} ${kind}`] : [];
    })
    .join(', ');
}

/** The piece of that name; of a feeder its shelves; of a node of the bus the unit or sled at it. */
function boundPieces(pieces: readonly Piece[], { scenario }: Bundle, where: string | null): readonly Piece[] {
  if (where === null) return [];
  const fed = scenario.shelves.filter(({ feeder }) => feeder === where).map(({ id }) => id);
  const unit = where.slice(where.indexOf('.') + 1);
  const own = pieces.filter(({ id }) => id === where || fed.includes(id));
  return own.length > 0 ? own : pieces.filter(({ id }) => id === unit);
}
