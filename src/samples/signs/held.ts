/**
 * A channel that stands still while another moves which it follows everywhere else: a voltage whose readings are held, where
 * the current steps. Too short, or too coarse, to be a run beyond chance; and it hides the edge.
 */
import { formatQuantity } from '../../base/quantity.ts';
import { quantileOf } from '../quantile.ts';
import type { Sampled, Sign } from './sign.ts';

/** An edge is a move by so much of the range, without the far hundredths, over a window of two samples to either side. */
const edge_ratio = 0.25;
const side = 2;
/** So many edges must be followed for each that is not, and so many at least. */
const followedEach = 4;
const fewestFollowed = 6;
/** What an edge moves the follower by, by the least of those that it follows, is more than its rounding. */
const least_steps = 1.5;
/** Followed edges show at the same sample, within this: those of a channel that is renewed more rarely than its rows do not. */
const alike = 1;

interface Edge {
  readonly at: number;
  readonly move: number;
  readonly follows: number;
  /** Where in the window the follower changes most. */
  readonly steepest: number;
  readonly isHeld: boolean;
}

/** Stretches in which `follower` repeats one value over an edge of `mover`. */
export function held(follower: Sampled, mover: Sampled): Sign[] {
  const { time_s, values, other } = atCommonStamps(follower, mover);
  const edges = edgesOf(values, other);
  const followed = edges.filter(({ isHeld }) => !isHeld);
  const still = edges.filter(({ isHeld }) => isHeld);
  if (still.length === 0 || followed.length < Math.max(fewestFollowed, followedEach * still.length))
    return [];
  const steepest = (share: number): number =>
    quantileOf(followed.length, (k) => followed[k]!.steepest, share);
  if (steepest(0.9) - steepest(0.1) > alike) return [];
  const slopes = followed.map(({ move, follows }) => Math.abs(follows / move));
  const slope = quantileOf(slopes.length, (k) => slopes[k]!, 0.1);
  const step = decimalOf(values);
  return still.flatMap(({ at, move }): Sign[] => {
    const expected = slope * Math.abs(move);
    if (expected < least_steps * step) return [];
    let [from, to] = [at, at];
    while (from > 0 && values[from - 1] === values[at]) from--;
    while (to + 1 < values.length && values[to + 1] === values[at]) to++;
    return [
      {
        kind: 'frozen',
        channel: follower.name,
        from_s: time_s[from]!,
        to_s: time_s[to]!,
        shows: `${follower.name} stands at exactly ${follower.written(values[at]!)} (${to - from + 1} samples from ${formatQuantity(time_s[from]!, 'time', 5)} on) while ${mover.name} moves by ${mover.written(Math.abs(move))}, and follows ${followed.length} other such edges`,
        asks: 'were its last readings held there, or what kept it?',
      },
    ];
  });
}

/** Of voltages beside currents what `known` signs do not say already, once each. */
export function heldBeside(
  followers: readonly Sampled[],
  movers: readonly Sampled[],
  known: readonly Sign[],
): Sign[] {
  const isTold = (told: readonly Sign[], { kind, channel, from_s, to_s }: Sign): boolean =>
    told.some(
      (one) => one.kind === kind && one.channel === channel && one.from_s <= to_s && from_s <= one.to_s,
    );
  const found: Sign[] = [];
  for (const follower of followers)
    for (const mover of movers)
      for (const sign of held(follower, mover)) if (!isTold([...known, ...found], sign)) found.push(sign);
  return found;
}

/** Edges of the mover, the steepest of neighbours, and what the follower does there. */
function edgesOf(values: Float64Array, mover: Float64Array): Edge[] {
  const [low, high] = [0.01, 0.99].map((share) => quantileOf(mover.length, (k) => mover[k]!, share));
  const least = edge_ratio * (high! - low!);
  const moveAt = (k: number): number => mover[k + side]! - mover[k - side]!;
  const edges: Edge[] = [];
  for (let k = side; least > 0 && k + side < mover.length; k++) {
    if (Math.abs(moveAt(k)) < least) continue;
    const from = k;
    while (k + 1 + side < mover.length && Math.abs(moveAt(k + 1)) >= least) k++;
    const at = from - side + steepestOf(mover.subarray(from - side, k + side + 1));
    if (at < side || at + side >= mover.length) continue;
    const window = values.subarray(at - side, at + side + 1);
    edges.push({
      at,
      move: moveAt(at),
      follows: values[at + side]! - values[at - side]!,
      steepest: steepestOf(window),
      isHeld: window.every((value) => value === window[0]),
    });
  }
  return edges;
}

function steepestOf(window: Float64Array): number {
  let steepest = 1;
  for (let i = 2; i < window.length; i++)
    if (Math.abs(window[i]! - window[i - 1]!) > Math.abs(window[steepest]! - window[steepest - 1]!))
      steepest = i;
  return steepest;
}

/** The last decimal that values have; 0 where they have more than nine. */
function decimalOf(values: Float64Array): number {
  for (let scale = 1; scale <= 1e9; scale *= 10)
    if (values.every((value) => Math.abs(value * scale - Math.round(value * scale)) < 1e-6)) return 1 / scale;
  return 0;
}

function atCommonStamps(
  { time_s: times, values }: Sampled,
  mover: Sampled,
): { readonly time_s: Float64Array; readonly values: Float64Array; readonly other: Float64Array } {
  const [own, others]: [number[], number[]] = [[], []];
  let k = 0;
  for (let i = 0; i < times.length; i++) {
    while (k < mover.time_s.length && mover.time_s[k]! < times[i]!) k++;
    if (k === mover.time_s.length) break;
    if (mover.time_s[k] !== times[i]) continue;
    own.push(i);
    others.push(k);
  }
  return {
    time_s: Float64Array.from(own, (i) => times[i]!),
    values: Float64Array.from(own, (i) => values[i]!),
    other: Float64Array.from(others, (i) => mover.values[i]!),
  };
}
