/**
 * Noise that is alike over many samples: what was smoothed, averaged or resampled before it was written shows less than
 * its rate promises. Changes of white noise over r samples have correlations of −1/2, 0 and 0 with those that follow
 * (each sample is in two of them); of noise that lasts longer than r samples they do not. Looked at are the quiet
 * stretches between edges.
 */
import { formatQuantity } from '../../base/quantity.ts';
import { medianOf } from '../quantile.ts';
import { medianInterval_s } from '../series.ts';
import type { EqualRuns } from './equal-runs.ts';
import type { Sampled, Sign } from './sign.ts';

/** Samples over which noise may last; below four a sensor's own filter makes no difference that matters. */
const spans = [4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 64];
/** Changes that are no edge: up to so many times the median. */
const quiet_ratio = 4;
const fewestPairs = 80;
/** Of a longer recording the middle is looked at. */
const mostPoints = 50_000;
const inARow = 3;
/** Correlation of changes with the next: white below, certainly not white above. */
const [white, coloured] = [-0.32, -0.25];
/** Of those after the next, in white noise, beside what chance adds. */
const least = 0.1;
/** An edge within one sample is so large a part of the furthest change over the span; a few may be disturbances. */
const edge_ratio = 0.5;
const fewestEdges = 3;
/** Repeated values are a matter of a sensor that renews slowly. */
const mostRepeats_ratio = 0.3;
/** Rounding is no noise: changes are several steps of the sensor. */
const fewestSteps = 3;

export function smoothed({ name, time_s, values }: Sampled, { unrest }: EqualRuns): Sign[] {
  if (unrest.repeat_ratio > mostRepeats_ratio) return [];
  const [own] = correlations(values, 1) ?? [white];
  const step = smallestChange(values);
  if (own === undefined || own < coloured) return [];
  // A swing may look white at one span that is near to its half, noise stays white at all that are longer.
  const span = spans.find((_, k) => {
    const longer = spans.slice(k, k + inARow);
    return longer.length === inARow && longer.every((r) => isWhite(values, r, step));
  });
  if (span === undefined || showsEdges(values, span)) return [];
  const lasts_s = span * medianInterval_s(time_s);
  return [
    {
      kind: 'smoothed',
      channel: name,
      from_s: time_s[0]!,
      to_s: time_s[time_s.length - 1]!,
      shows: `${name} has noise that lasts about ${span} samples, ${formatQuantity(lasts_s, 'time', 2)}: what is faster than about ${formatQuantity(0.44 / lasts_s, 'frequency', 2)} is not in it, though its rate promises ${formatQuantity((0.44 * span) / lasts_s, 'frequency', 2)}, and edges show slower than they were`,
      asks: 'smoothed, averaged or resampled before it was written (--averaging), or a load that wanders so?',
    },
  ];
}

/** Whether it changes from one sample to the next by what it changes over the span at most: what was smoothed cannot. */
function showsEdges(values: Float64Array, span: number): boolean {
  let furthest = 0;
  for (let i = span; i < values.length; i++)
    furthest = Math.max(furthest, Math.abs(values[i]! - values[i - span]!));
  let edges = 0;
  for (let i = 1; i < values.length; i++)
    if (Math.abs(values[i]! - values[i - 1]!) > edge_ratio * furthest) edges++;
  return edges >= fewestEdges;
}

function isWhite(values: Float64Array, span: number, step: number): boolean {
  const found = correlations(values, span);
  if (found === null) return false;
  const [one, two, three, pairs, usual] = found;
  const slack = least + 2 / Math.sqrt(pairs);
  return one < white && Math.abs(two) < slack && Math.abs(three) < slack && usual > fewestSteps * step;
}

/** Correlations of changes over `span` samples with the next three, their number, and a usual change; null where there are few. */
function correlations(
  values: Float64Array,
  span: number,
): readonly [one: number, two: number, three: number, pairs: number, usual: number] | null {
  const from = Math.max(0, (values.length - mostPoints) >> 1);
  const count = Math.min(values.length, mostPoints) - span;
  if (count < span * fewestPairs) return null;
  const change = (i: number): number => values[i + span]! - values[i]!;
  const usual = medianOf(count, (i) => Math.abs(change(from + i)));
  const most = quiet_ratio * usual;
  let [all, one, two, three, taken] = [0, 0, 0, 0, 0];
  for (let i = from; i + 3 * span < from + count; i++) {
    const [a, b, c, d] = [change(i), change(i + span), change(i + 2 * span), change(i + 3 * span)];
    const furthest = Math.max(Math.abs(a), Math.abs(b), Math.abs(c), Math.abs(d), Math.abs(a + b + c + d));
    if (furthest > most) continue;
    taken++;
    all += 0.25 * (a * a + b * b + c * c + d * d);
    one += (a * b + b * c + c * d) / 3;
    two += (a * c + b * d) / 2;
    three += a * d;
  }
  const pairs = taken / span;
  if (pairs < fewestPairs || !(all > 0)) return null;
  return [one / all, two / all, three / all, pairs, usual];
}

function smallestChange(values: Float64Array): number {
  let step = Number.POSITIVE_INFINITY;
  for (let i = 1; i < values.length; i++) {
    const change = Math.abs(values[i]! - values[i - 1]!);
    if (change > 0 && change < step) step = change;
  }
  return step;
}
