/** Numbers that a controller of the user's own lets be seen: a panel for each unit, one number at a time. */
import type { JudgedRun } from '../../src/bundle/format.ts';
import { type ChannelUnit, channelUnits } from '../../src/channels/channel.ts';
import { html } from '../dom.ts';
import { outsideWindow } from '../judged-time.ts';
import type { Lens } from '../lens.ts';
import { withUnit } from '../numbers.ts';
import { strokeTrace } from '../paint.ts';
import { makePanel } from '../plot.ts';
import type { Record } from '../record.ts';
import { channelColumns, overBuckets } from '../taken/over-buckets.ts';

export function ownPanels(host: HTMLElement, lens: Lens, record: Record, bundle: JudgedRun): void {
  for (const unit of channelUnits) ownPanel(host, lens, record, bundle, unit);
}

function ownPanel(host: HTMLElement, lens: Lens, record: Record, bundle: JudgedRun, unit: ChannelUnit): void {
  const members = record.ofKind('own').filter((channel) => channel.unit === unit);
  let [chosen] = members;
  if (chosen === undefined) return;
  const nameOf = (id: string): string => id.replace(/_[^_]*$/, '').replace('.', ': ');
  const picker = html(
    'select',
    { id: `own-${unit}-picker`, 'aria-label': 'Choose a number of a controller to draw' },
    ...members.map(({ id }) => html('option', { value: id }, nameOf(id))),
  );
  const redraw = makePanel(host, lens, record, {
    id: `own-${unit}`,
    title: unit === 'ratio' ? 'Of a controller, plain numbers' : `Of a controller, in ${unit}`,
    note: 'what a module of your own lets be seen, as it stood after its last call',
    height: 84,
    unit,
    series: () => [record.series(chosen!.id)!],
    include: [],
    controls: members.length > 1 ? [picker] : [],
    shades: outsideWindow(bundle.report, lens.whole_s),
    table: () => overBuckets(record, channelColumns(record, chosen!.id)),
    draw(frame) {
      strokeTrace(frame, record.series(chosen!.id)!, { tint: 'copper', width: 1.8 });
    },
    rows: (bucket) => [
      {
        mark: 'solid',
        tint: 'copper',
        name: nameOf(chosen!.id),
        value: withUnit(record.mean(chosen!.id, bucket), unit),
      },
    ],
  });
  picker.addEventListener('change', () => {
    chosen = members.find(({ id }) => id === picker.value) ?? chosen;
    redraw();
  });
}
