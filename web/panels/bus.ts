/** The bus: the band between the lowest and the highest node, limits as levels, any node by name over it. */
import type { JudgedRun } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';
import { outsideWindow } from '../judged-time.ts';
import type { Lens } from '../lens.ts';
import { withUnit } from '../numbers.ts';
import { fillBand, type Style, strokeEdge, strokeTrace } from '../paint.ts';
import { makePanel } from '../plot.ts';
import { envelopeOf, outermostAt, type Record } from '../record.ts';
import { channelColumns, overBuckets, reachColumns } from '../taken/over-buckets.ts';
import { ink } from '../theme.ts';
import { busLimits } from './bus-limits.ts';
import { drawLimits } from './limit-lines.ts';
import { pinsOf } from './pins.ts';
import type { Row } from './read-out.ts';

interface Chosen {
  readonly id: string;
  readonly owner: string;
}

/** Line styles of chosen nodes, in the order of choosing; the mark's name repeats the style. */
const styles: readonly { readonly mark: string; readonly style: Style }[] = [
  { mark: 'solid', style: { tint: 'copper', width: 1.8 } },
  { mark: 'dashed', style: { tint: 'tray', width: 1.8, dash: [7, 3] } },
  { mark: 'dotted', style: { tint: 'capacitor', width: 1.8, dash: [2, 2.5] } },
  { mark: 'dashdot', style: { tint: 'battery', width: 1.8, dash: [8, 3, 2, 3] } },
];

/** A node below this of nominal is no part of the bus any more: its contact is open. */
const dead_ratio = 0.02;

export function busPanel(host: HTMLElement, lens: Lens, record: Record, bundle: JudgedRun): void {
  const nodes = record.ofKind('node-voltage');
  const dead_V = dead_ratio * bundle.scenario.nominal_V;
  const band = envelopeOf(
    record,
    nodes.map(({ id }) => id),
    dead_V,
  );
  if (band === null) return;
  const levels = busLimits(bundle);
  let chosen: readonly Chosen[] = [];
  const chips = html('span', { class: 'chips' });
  const picker = html(
    'select',
    { id: 'node-picker', 'aria-label': 'Draw a node of the bus over the band' },
    html('option', { value: '' }, 'add a node …'),
    ...nodes.map(({ id, owner }) => html('option', { value: id }, owner)),
  );
  const redraw = makePanel(host, lens, record, {
    id: 'bus',
    title: 'Bus voltage',
    note: 'band from the lowest to the highest node; dashed: limits with the longest stay allowed beyond them',
    height: 124,
    unit: 'V',
    series: () => [band],
    include: levels.filter(({ steady }) => steady).map(({ value }) => value),
    controls: [chips, picker],
    shades: outsideWindow(bundle.report, lens.whole_s),
    pins: pinsOf(['panel-bus'], bundle),
    pinned: ({ side }, bucket) => (side === 'lower' ? band.min[bucket]! : band.max[bucket]!),
    table: () =>
      overBuckets(record, [
        ...reachColumns('all_nodes.voltage_V', band),
        ...chosen.flatMap(({ id }) => channelColumns(record, id)),
      ]),
    draw(frame) {
      fillBand(frame, band, ink('band'), 0.55);
      strokeEdge(frame, band, 'high', { tint: 'muted', width: 1 });
      strokeEdge(frame, band, 'low', { tint: 'ink', width: 1.4 });
      drawLimits(frame, levels);
      chosen.forEach(({ id }, k) => {
        const series = record.series(id);
        if (series !== null) strokeTrace(frame, series, styles[k]!.style);
      });
    },
    rows(bucket): readonly Row[] {
      const outer = outermostAt(record, nodes, bucket, dead_V);
      return [
        {
          mark: 'thin',
          tint: 'muted',
          name: `highest, ${outer?.highest.owner}`,
          value: withUnit(band.max[bucket], 'V'),
        },
        {
          mark: 'solid',
          tint: 'ink',
          name: `lowest, ${outer?.lowest.owner}`,
          value: withUnit(band.min[bucket], 'V'),
        },
        {
          mark: 'box',
          tint: 'band',
          name: 'between',
          value: withUnit(band.max[bucket]! - band.min[bucket]!, 'V'),
        },
        ...chosen.map(({ id, owner }, k) => ({
          mark: styles[k]!.mark,
          tint: styles[k]!.style.tint,
          name: owner,
          value: withUnit(record.mean(id, bucket), 'V'),
        })),
      ];
    },
  });
  const choose = (next: readonly Chosen[]): void => {
    chosen = next.slice(-styles.length);
    chips.replaceChildren(
      ...chosen.map((node) => {
        const chip = html('button', { type: 'button', class: 'chip', title: 'remove' }, `${node.owner} ×`);
        chip.addEventListener('click', () => choose(chosen.filter((other) => other !== node)));
        return chip;
      }),
    );
    redraw();
  };
  picker.addEventListener('change', () => {
    const node = nodes.find(({ id }) => id === picker.value);
    picker.value = '';
    if (node !== undefined && !chosen.some(({ id }) => id === node.id)) choose([...chosen, node]);
  });
}
