/** One channel: the band of its least and greatest values, and over it each reading, held until the next. */
import type { Bundle } from '../../src/bundle/format.ts';
import type { PolledChannel } from '../../src/monitoring/monitoring.ts';
import { svg } from '../dom.ts';
import { drawTimeAxis, drawValueAxis, valueAxis } from '../panels/panel-drawing.ts';
import { gutter } from '../sheet.ts';

const height = 200;

/** Room below for moments, and right of the last label [px]. */
const foot = 24;
const edge = 8;

export function pollsOverTruth(
  { channel, unit, time_s, readings, truth }: PolledChannel,
  { channels, edges_s, min, max, bucketCount }: Bundle['result']['recording'],
  width: number,
): SVGElement {
  const [from_s, to_s] = [edges_s[0] ?? 0, edges_s[bucketCount] ?? 1];
  const plot = Math.max(1, width - gutter - edge);
  const span_s = to_s - from_s || 1;
  const axis = valueAxis(
    truth.max > truth.min ? [truth.min, truth.max] : [truth.min - 1, truth.max + 1],
    height,
  );
  const x = (time: number): string => (gutter + ((time - from_s) / span_s) * plot).toFixed(1);
  const y = (value: number): string => axis.y(value).toFixed(1);
  const c = channels.findIndex(({ id }) => id === channel);
  const band =
    c < 0
      ? ''
      : Array.from(
          { length: bucketCount },
          (_, k) =>
            `M${x(edges_s[k]!)} ${y(max[c]![k]!)}H${x(edges_s[k + 1]!)}V${y(min[c]![k]!)}H${x(edges_s[k]!)}Z`,
        ).join('');
  const held = readings.map(
    (value, k) => `${k === 0 ? 'M' : 'H'}${x(time_s[k]!)}${k === 0 ? ' ' : 'V'}${y(value)}`,
  );
  // The last reading is the newest until the run ends.
  const last = readings.length === 0 ? '' : `H${x(to_s)}`;
  const root = svg('svg', {
    ...{ width, height: height + foot, class: 'axis', role: 'img' },
    'aria-label': `${channel}: ${readings.length} readings over what happened`,
  });
  for (const tick of axis.ticks)
    root.append(svg('path', { class: 'grid-line', d: `M${gutter} ${y(tick)}H${gutter + plot}` }));
  root.append(
    svg('path', { class: 'truth', d: band }),
    svg('path', { class: 'held', d: `${held.join('')}${last}` }),
    ...readings.map((value, k) => svg('circle', { cx: x(time_s[k]!), cy: y(value), r: 2.8 })),
  );
  drawValueAxis(root, axis, unit);
  drawTimeAxis(root, { from_s, to_s }, plot, height);
  return root;
}
