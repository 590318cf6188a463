/** A channel whose values are all ten, a hundred or a thousand times larger from one sample on, noise and swing alike. */
import { logarithm } from '../../base/logarithm.ts';
import { formatQuantity } from '../../base/quantity.ts';
import { quantileOf } from '../quantile.ts';
import { fewestSamples, type Sampled, type Sign } from './sign.ts';

const decades = [10, 100, 1000];
/** Shares at which the two parts are held against each other: each stands in the same ratio, so nearly. */
const shares = [0.02, 0.1, 0.9, 0.98];
const alike_ratio = 0.12;
/** Means that lie no further apart are of one scale: quantiles of millions of samples take a while. */
const least_ratio = 5;
/** Of a load that stands still a level says nothing of the scale. */
const swing_ratio = 1.5;

export function scaleStep({ name, time_s, values, written }: Sampled): Sign[] {
  if (values.some((value) => !(value > 0))) return [];
  const at = likeliestStep(values);
  if (Math.min(at, values.length - at) < fewestSamples) return [];
  const [lower, higher] = [mean(values.subarray(0, at)), mean(values.subarray(at))].sort((a, b) => a - b);
  if (higher! < least_ratio * lower!) return [];
  const at_ = (from: number, to: number, share: number): number =>
    quantileOf(to - from, (k) => values[from + k]!, share);
  const before = shares.map((share) => at_(0, at, share));
  const after = shares.map((share) => at_(at, values.length, share));
  if (before.at(-1)! < swing_ratio * before[0]!) return [];
  const ratios = after.map((value, k) => value / before[k]!);
  const decade = decades.find((ten) =>
    [ten, 1 / ten].some((scale) => ratios.every((ratio) => Math.abs(ratio / scale - 1) < alike_ratio)),
  );
  if (decade === undefined) return [];
  const word = ratios[0]! > 1 ? 'larger' : 'smaller';
  return [
    {
      kind: 'two scales',
      channel: name,
      from_s: time_s[at]!,
      to_s: time_s[values.length - 1]!,
      shows: `${name} is ${decade} times ${word} from ${formatQuantity(time_s[at]!, 'time', 5)} on, its levels and its swing alike (up to ${written(before.at(-1)!)} and ${written(after.at(-1)!)})`,
      asks: 'a unit or a range that changes within the file, or more devices under one name?',
    },
  ];
}

/** Blocks whose means are looked at first. */
const blocks = 2048;

/** The sample from which on logarithms lie at another mean than before: among means of blocks, then within the blocks about it. */
function likeliestStep(values: Float64Array): number {
  const size = Math.ceil(values.length / blocks);
  const means = Float64Array.from({ length: Math.floor(values.length / size) }, (_, k) => {
    let sum = 0;
    for (let i = k * size; i < (k + 1) * size; i++) sum += values[i]!;
    return sum / size;
  });
  const near = size * stepIn(means);
  if (size === 1) return near;
  const from = Math.max(0, near - 2 * size);
  return from + stepIn(values.subarray(from, near + 2 * size));
}

function mean(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  return sum / values.length;
}

/** Where the sum of what logarithms are off the mean of all is largest. */
function stepIn(values: Float64Array): number {
  const logs = values.map(logarithm);
  const middle = mean(logs);
  let [sum, far, at] = [0, 0, 0];
  for (let i = 0; i + 1 < logs.length; i++) {
    sum += logs[i]! - middle;
    if (Math.abs(sum) <= far) continue;
    far = Math.abs(sum);
    at = i + 1;
  }
  return at;
}
