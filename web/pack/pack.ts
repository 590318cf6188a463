/** The review pack: what the browser prints instead of the page, made when it is asked for and gone afterwards. */
import type { Bundle } from '../../src/bundle/format.ts';
import { bindingOf } from '../binding.ts';
import { html } from '../dom.ts';
import type { Lens } from '../lens.ts';
import type { Record } from '../record.ts';
import { allPlots, type View } from '../taken/plot.ts';
import { cabinetPart } from './cabinet-part.ts';
import { cautionsPart } from './cautions-part.ts';
import { inputsPart } from './inputs-part.ts';
import { limitsPart } from './limits-part.ts';
import { plotsPart } from './plots-part.ts';
import { signaturePart } from './signature-part.ts';
import { statementPart } from './statement-part.ts';
import { verdictPart } from './verdict-part.ts';

/** Makes the pack whenever the page is about to be printed, by key, by menu or by a program. */
export function bindPack(lens: Lens, record: Record, bundle: Bundle): void {
  let pack: HTMLElement | null = null;
  const make = (): void => {
    if (pack !== null) return;
    pack = packOf(lens, record, bundle);
    document.body.append(pack);
  };
  const drop = (): void => {
    pack?.remove();
    pack = null;
  };
  addEventListener('beforeprint', make);
  addEventListener('afterprint', drop);
  matchMedia('print').addEventListener('change', ({ matches }) => (matches ? make() : drop()));
}

/** The whole run, with values at the moment that binds: whatever the page shows, the same run prints the same pack. */
function packOf(lens: Lens, record: Record, bundle: Bundle): HTMLElement {
  const [from_s, to_s] = lens.whole_s;
  const view: View = { from_s, to_s, cursor_s: bindingOf(bundle).time_s ?? from_s };
  const drawn = record.bucketCount > 0;
  return html(
    'article',
    { id: 'review-pack' },
    verdictPart(bundle),
    statementPart(bundle),
    limitsPart(bundle),
    plotsPart(
      allPlots().filter(({ drawing }) => drawing.closest('#what-if') === null),
      view,
    ),
    ...(drawn ? [cabinetPart(record, bundle, view.cursor_s)] : []),
    inputsPart(bundle),
    cautionsPart(),
    signaturePart(),
  );
}
