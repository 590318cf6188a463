/** One channel: the band of its least and greatest values, and over it each reading, held until the next. */
import { numberText } from '../../src/analysis/words/number-text.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import type { PolledChannel } from '../../src/monitoring/monitoring.ts';
import { svg } from '../dom.ts';

const width = 900;
const height = 180;

export function pollsOverTruth(
  { channel, unit, time_s, readings, truth }: PolledChannel,
  { channels, edges_s, min, max, bucketCount }: Bundle['result']['recording'],
): SVGElement {
  const from_s = edges_s[0] ?? 0;
  const span_s = (edges_s[bucketCount] ?? 1) - from_s || 1;
  const swing = truth.max - truth.min || 1;
  const x = (time: number): string => (((time - from_s) / span_s) * width).toFixed(1);
  const y = (value: number): string => (height - ((value - truth.min) / swing) * height).toFixed(1);
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
  const dots = readings.map((value, k) => svg('circle', { cx: x(time_s[k]!), cy: y(value), r: 2.5 }));
  return svg(
    'svg',
    {
      viewBox: `-4 -14 ${width + 8} ${height + 32}`,
      role: 'img',
      'aria-label': `${channel}: ${readings.length} readings over what happened`,
    },
    svg('path', { class: 'truth', d: band }),
    svg('path', { class: 'held', d: held.join('') }),
    ...dots,
    svg('text', { x: 0, y: -3 }, `${numberText(truth.max, unit)} greatest`),
    svg('text', { x: 0, y: height + 14 }, `${numberText(truth.min, unit)} least`),
    svg('text', { x: width, y: height + 14, 'text-anchor': 'end' }, numberText(from_s + span_s, 's')),
  );
}
