/** A measured channel over what its sensor shows of the model, before and after the fit; below it what is left of both. */
import { line, scaleLinear } from 'd3';
import type { FitReport } from '../../../src/studies/fit/fit-report.ts';
import { html, svg } from '../../dom.ts';
import { duration, withUnit } from '../../numbers.ts';
import { channelWords } from '../channel-words.ts';
import { across, type Field, upward } from '../chart/axes.ts';
import { chart, type Drawing } from '../chart/chart.ts';

type Channel = FitReport['channels'][number];

/** Of the values, between the two, of what is left, of the axis below [px]. */
const [head, height, between, leftHeight, foot] = [26, 200, 34, 100, 40] as const;
const left = 74;

interface Sample {
  readonly time_s: number;
  readonly measured: number;
  readonly before: number | null;
  readonly after: number | null;
}

export function laidChart(channel: Channel): HTMLElement {
  const name = channelWords(channel.channel);
  return html(
    'div',
    { class: 'one-curve' },
    html('h4', {}, name, html('small', { class: 'key' }, channel.channel)),
    chart({
      label: `${name}: measured, and simulated before and after the fit, against time`,
      height: () => head + height + between + leftHeight + foot,
      draw: (width) => drawn(channel, width),
      across: true,
    }),
  );
}

function drawn({ laid, unit, samples: count }: Channel, width: number): Drawing {
  const samples = laid.time_s.map((time_s, k): Sample => {
    return { time_s, measured: laid.measured[k]!, before: laid.before[k]!, after: laid.after[k]! };
  });
  const above: Field = { left, right: width - 14, top: head, bottom: head + height };
  const below: Field = { ...above, top: above.bottom + between, bottom: above.bottom + between + leftHeight };
  const x = scaleLinear([samples[0]!.time_s, samples.at(-1)!.time_s], [above.left, above.right]);
  const values = samples.flatMap(({ measured, before, after }) => [
    measured,
    before ?? measured,
    after ?? measured,
  ]);
  const y = scaleLinear([Math.min(...values), Math.max(...values)], [above.bottom, above.top]).nice(5);
  const rest = (one: Sample, side: 'before' | 'after'): number | null =>
    one[side] === null ? null : one.measured - one[side];
  const rests = samples.flatMap((one) => [rest(one, 'before') ?? 0, rest(one, 'after') ?? 0]);
  const r = scaleLinear([Math.min(0, ...rests), Math.max(0, ...rests)], [below.bottom, below.top]).nice(3);
  const path = (of: (one: Sample) => number | null, scale: typeof y, kind: string): SVGElement => {
    const along = line<Sample>()
      .defined((one) => of(one) !== null)
      .x(({ time_s }) => x(time_s))
      .y((one) => scale(of(one) ?? 0));
    return svg('path', { class: kind, fill: 'none', d: along(samples) ?? '' });
  };
  const ticks = x.ticks(7).map((t) => ({ at: x(t), words: duration(t) }));
  const kept = samples.length < count ? `; of ${count} samples ${samples.length}` : '';
  return {
    row: 0,
    children: [
      ...upward(
        above,
        y.ticks(5).map((v) => ({ at: y(v), words: withUnit(v, unit) })),
        'measured and simulated',
      ),
      ...upward(
        below,
        r.ticks(3).map((v) => ({ at: r(v), words: small(v, unit) })),
        'measured less simulated',
      ),
      ...across(below, ticks, `time of the run${kept}`, true),
      ...samples.map(({ time_s, measured }) =>
        svg('circle', { class: 'measured', cx: x(time_s), cy: y(measured), r: 1.7 }),
      ),
      path(({ before }) => before, y, 'before'),
      path(({ after }) => after, y, 'curve'),
      path((one) => rest(one, 'before'), r, 'before'),
      path((one) => rest(one, 'after'), r, 'curve'),
    ],
    stops: samples.map((one) => ({
      x: x(one.time_s),
      y: y(one.measured),
      words: `${duration(Number(one.time_s.toPrecision(6)))}: measured ${withUnit(one.measured, unit)}, off by ${small(rest(one, 'before'), unit)} before and ${small(rest(one, 'after'), unit)} after`,
    })),
  };
}

/** A difference: of volts in millivolts where it is small. */
function small(value: number | null, unit: string): string {
  if (value === null) return '–';
  return unit === 'V' && Math.abs(value) < 1 ? withUnit(1e3 * value, 'mV') : withUnit(value, unit);
}
