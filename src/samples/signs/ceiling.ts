/** A channel that hardly moves at its top, in the midst of moves that end there: cut off, with a little noise on it. */
import { counted } from '../../base/counted.ts';
import { formatQuantity } from '../../base/quantity.ts';
import { medianOf } from '../quantile.ts';
import { rangeOf } from '../range.ts';
import { type EqualRuns, isRestless } from './equal-runs.ts';
import { isCoarse } from './frozen.ts';
import { fewestSamples, type Sampled, type Sign } from './sign.ts';

/** The top is this part of a usual move. */
const top_ratio = 0.5;
/** So many samples in a row that move so little are a stretch: of them there are so many at the top, and far fewer elsewhere. */
const fewest = 6;
const fewestStretches = 5;
const farFewer = 10;
/** A level of its own, held by a control for example, has nothing near below it: of so much of the range so many. */
const near_ratio = 0.25;
const nearShare = 0.1;
/** Moves are looked at below the top tenth. */
const upper_ratio = 0.1;
const mostMoves = 20_000;

export function ceiling({ name, time_s, values, written }: Sampled, { unrest }: EqualRuns): Sign[] {
  const n = values.length;
  if (!isRestless(unrest) || isCoarse(values)) return [];
  const { lowest, highest } = rangeOf(values);
  const upper = highest - upper_ratio * (highest - lowest);
  const moves = movesBelow(values, upper);
  if (moves.length < fewestSamples) return [];
  const width = top_ratio * medianOf(moves.length, (k) => moves[k]!);
  const bottom = highest - width;
  let [run, stretches, within, near, quiet, elsewhere, first, last] = [0, 0, 0, 0, 1, 0, -1, -1];
  for (let i = 0; i < n; i++) {
    const value = values[i]!;
    if (value >= bottom) {
      run++;
      within++;
      quiet = 1;
      if (run !== fewest) continue;
      stretches++;
      if (first < 0) first = i - fewest + 1;
      last = i;
      continue;
    }
    run = 0;
    if (value > highest - near_ratio * (highest - lowest)) near++;
    quiet = i > 0 && values[i - 1]! < bottom && Math.abs(value - values[i - 1]!) <= width ? quiet + 1 : 1;
    if (quiet === fewest) elsewhere++;
  }
  if (stretches < fewestStretches || stretches < farFewer * elsewhere || near < nearShare * within) return [];
  return [
    {
      kind: 'clipped',
      channel: name,
      from_s: time_s[first]!,
      to_s: time_s[last]!,
      shows: `${name} hardly moves at its top: ${within} samples from ${written(bottom)} to ${written(highest)}, ${counted(stretches, 'time')} ${fewest} or more in a row from ${formatQuantity(time_s[first]!, 'time', 5)} on, and elsewhere ${elsewhere === 0 ? 'never' : counted(elsewhere, 'time')}`,
      asks: 'a sensor at its end of range, or a load held at a cap?',
    },
  ];
}

/** Changes from samples below a value, of as many as it takes to know them by. */
function movesBelow(values: Float64Array, upper: number): number[] {
  const moves: number[] = [];
  for (let i = 0; i + 1 < values.length && moves.length < mostMoves; i++)
    if (values[i]! < upper) moves.push(Math.abs(values[i + 1]! - values[i]!));
  return moves;
}
