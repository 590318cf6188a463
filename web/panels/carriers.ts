/** Who carries the load: shelves, trays, batteries and capacitors stacked, against the demand. */
import type { JudgedRun } from '../../src/bundle/format.ts';
import { columnMeans } from '../columns.ts';
import type { Frame } from '../frame.ts';
import { outsideWindow } from '../judged-time.ts';
import type { Lens } from '../lens.ts';
import { withUnit } from '../numbers.ts';
import { level, strokeTrace } from '../paint.ts';
import { makePanel } from '../plot.ts';
import type { Record } from '../record.ts';
import type { Series } from '../series.ts';
import { channelColumns, overBuckets } from '../taken/over-buckets.ts';
import { hatch, type Ink, ink } from '../theme.ts';
import { pinsOf } from './pins.ts';

const carriers = [
  { id: 'total.shelves_W', name: 'rectifier shelves', tint: 'copper', kind: 'plain', mark: 'box' },
  { id: 'total.batteries_W', name: 'batteries', tint: 'battery', kind: 'dots', mark: 'dots' },
  { id: 'total.trays_W', name: 'trays', tint: 'tray', kind: 'rising', mark: 'rising' },
  { id: 'total.capacitors_W', name: 'capacitors', tint: 'capacitor', kind: 'falling', mark: 'falling' },
] as const satisfies readonly {
  id: string;
  name: string;
  tint: Ink;
  kind: 'plain' | 'rising' | 'dots' | 'falling';
  mark: string;
}[];

export function carriersPanel(host: HTMLElement, lens: Lens, record: Record, bundle: JudgedRun): void {
  const demand = record.series('total.load_W');
  const present = carriers.flatMap((carrier) => {
    const series = record.series(carrier.id);
    return series === null ? [] : [{ ...carrier, series }];
  });
  if (demand === null || present.length === 0) return;
  // The part of a stack above zero and the part below it, per pixel column; made again only on a new width.
  let up = new Float64Array(0);
  let down = new Float64Array(0);
  let mean = new Float64Array(0);
  const stack = (frame: Frame, series: Series, fill: string | CanvasPattern, edge: Ink): void => {
    const { pen, y, width } = frame;
    columnMeans(mean, frame.buckets, series, frame.stretch);
    pen.fillStyle = fill;
    pen.strokeStyle = ink(edge);
    pen.lineWidth = 1;
    for (const [side, base] of [[1, up] as const, [-1, down] as const]) {
      pen.beginPath();
      for (let k = 0; k < width; k += 1) pen.lineTo(k + 0.5, y(base[k]! + part(mean[k]!, side)));
      for (let k = width - 1; k >= 0; k -= 1) pen.lineTo(k + 0.5, y(base[k]!));
      pen.fill();
      pen.beginPath();
      let drawn = false;
      for (let k = 0; k < width; k += 1) {
        const own = part(mean[k]!, side);
        if (own === 0) drawn = false;
        else if (drawn) pen.lineTo(k + 0.5, y(base[k]! + own));
        else {
          pen.moveTo(k + 0.5, y(base[k]! + own));
          drawn = true;
        }
      }
      pen.stroke();
      for (let k = 0; k < width; k += 1) base[k] = base[k]! + part(mean[k]!, side);
    }
  };
  makePanel(host, lens, record, {
    id: 'carriers',
    title: 'Who carries the load',
    note: 'stacked means of each pixel column; below zero: trays and capacitors charging',
    height: 112,
    unit: 'W',
    series: () => [],
    include: [0],
    range: (first, last) => stackRange(present, demand, first, last),
    shades: outsideWindow(bundle.report, lens.whole_s),
    pins: pinsOf(['panel-carriers'], bundle),
    pinned: (_, bucket) => demand.max[bucket]!,
    table: () =>
      overBuckets(
        record,
        ['total.load_W', ...present.map(({ id }) => id)].flatMap((id) => channelColumns(record, id)),
      ),
    draw(frame) {
      const width = Math.ceil(frame.width);
      if (up.length !== width) {
        up = new Float64Array(width);
        down = new Float64Array(width);
        mean = new Float64Array(width);
      }
      up.fill(0);
      down.fill(0);
      for (const { series, tint, kind } of present) stack(frame, series, hatch(frame.pen, tint, kind), tint);
      level(frame, 0, '', { tint: 'muted' });
      strokeTrace(frame, demand, { tint: 'panel', width: 3.5 });
      strokeTrace(frame, demand, { tint: 'ink', width: 1.8 });
    },
    rows: (bucket) => [
      {
        mark: 'solid',
        tint: 'ink',
        name: 'demand of the sleds',
        value: watt(record, 'total.load_W', bucket),
      },
      ...present
        .map(({ id, name, tint, mark }) => ({ mark, tint, name, value: watt(record, id, bucket) }))
        .reverse(),
    ],
  });
}

function part(value: number, side: 1 | -1): number {
  return value * side > 0 ? value : 0;
}

function watt(record: Record, id: string, bucket: number): string {
  return withUnit(record.mean(id, bucket), 'W');
}

/** Highest sum of what is above zero and lowest of what is below it, with the demand. */
function stackRange(
  present: readonly { readonly series: Series }[],
  demand: Series,
  first: number,
  last: number,
): [number, number] {
  let [low, high] = [0, 0];
  for (let b = first; b <= last; b += 1) {
    let [up, down] = [0, 0];
    for (const { series } of present) {
      const middle = (series.min[b]! + series.max[b]!) / 2;
      up += part(middle, 1);
      down += part(middle, -1);
    }
    if (up > high) high = up;
    if (demand.max[b]! > high) high = demand.max[b]!;
    if (down < low) low = down;
  }
  return [low, high];
}
