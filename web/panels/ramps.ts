/** Ramps of the AC power over 100 ms and 1 s against time, with their limits. */
import type { Bundle } from '../../src/bundle/format.ts';
import type { WindowMeans } from '../../src/engine/result.ts';
import type { Lens } from '../lens.ts';
import { withUnit } from '../numbers.ts';
import { level, strokeTrace } from '../paint.ts';
import { makePanel } from '../plot.ts';
import type { Record, Series } from '../record.ts';

const spans: readonly (readonly [id: string, window_s: number])[] = [
  ['ac-ramp-100ms', 0.1],
  ['ac-ramp-1s', 1],
];

export function rampsPanel(host: HTMLElement, lens: Lens, record: Record, { report, result }: Bundle): void {
  const [short, long] = spans.map(([, window_s]) => rampSeries(result.means, window_s, record));
  if (short === undefined || short === null) return;
  const limits = spans.flatMap(([id, window_s]) => {
    const limit = report.findings.find((finding) => finding.id === id)?.limit ?? null;
    return limit === null ? [] : [{ limit, words: `limit over ${window_s} s, ${withUnit(limit, 'W/s')}` }];
  });
  const bound = limits[0];
  const { means } = result;
  const until_s = means.from_s + (means.columns.get('total.ac_power_W')?.length ?? 0) * means.width_s;
  /** Where a window before or after does not fit there is no ramp, which is not a ramp of 0. */
  const told = (series: Series, bucket: number, window_s: number): string => {
    const fits =
      record.edges_s[bucket + 1]! >= means.from_s + window_s && record.edges_s[bucket]! <= until_s - window_s;
    return fits ? withUnit(steepest(series, bucket), 'W/s') : '–';
  };
  makePanel(host, lens, record, {
    id: 'ramps',
    title: 'AC ramps',
    note: 'mean over the time after a moment less the mean over the time before, divided by that time',
    height: 120,
    unit: 'W/s',
    series: () => (long ? [short, long] : [short]),
    include: bound === undefined ? [0] : [-bound.limit, bound.limit],
    draw(frame) {
      strokeTrace(frame, short, { tint: 'copper', width: 1.4 });
      if (long) strokeTrace(frame, long, { tint: 'ink', width: 1.6 });
      if (bound === undefined) return;
      level(frame, bound.limit, bound.words, { tint: 'fail', dash: [6, 4] });
      level(frame, -bound.limit, '', { tint: 'fail', dash: [6, 4] });
    },
    rows: (bucket) => [
      {
        mark: 'solid',
        tint: 'copper',
        name: 'over 100 ms, steepest here',
        value: told(short, bucket, 0.1),
      },
      {
        mark: 'solid',
        tint: 'ink',
        name: 'over 1 s, steepest here',
        value: long ? told(long, bucket, 1) : '–',
      },
    ],
  });
}

function steepest({ min, max }: Series, bucket: number): number {
  return -min[bucket]! > max[bucket]! ? min[bucket]! : max[bucket]!;
}

/** Lowest and highest ramp in each bucket of the record; 0 where both windows do not fit. */
function rampSeries(means: WindowMeans, window_s: number, record: Record): Series | null {
  const power = means.columns.get('total.ac_power_W');
  const w = Math.round(window_s / means.width_s);
  if (power === undefined || power.length < 2 * w) return null;
  const sums = new Float64Array(power.length + 1);
  for (let j = 0; j < power.length; j += 1) sums[j + 1] = sums[j]! + power[j]!;
  const rampAt = (j: number): number => {
    if (j < w || j + w > power.length) return 0;
    return (sums[j + w]! - 2 * sums[j]! + sums[j - w]!) / (w * w * means.width_s);
  };
  const { bucketCount, edges_s } = record;
  const min = new Float32Array(bucketCount);
  const max = new Float32Array(bucketCount);
  for (let b = 0; b < bucketCount; b += 1) {
    const first = Math.floor((edges_s[b]! - means.from_s) / means.width_s);
    const last = Math.max(first, Math.ceil((edges_s[b + 1]! - means.from_s) / means.width_s));
    min[b] = Number.POSITIVE_INFINITY;
    max[b] = Number.NEGATIVE_INFINITY;
    for (let j = first; j <= last; j += 1) {
      const ramp = rampAt(j);
      if (ramp < min[b]!) min[b] = ramp;
      if (ramp > max[b]!) max[b] = ramp;
    }
  }
  return { min, max };
}
