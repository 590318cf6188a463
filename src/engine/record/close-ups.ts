/** Stretches of a run kept step by step, made of the leaves that were kept. */
import type { Channel } from '../../channels/channel.ts';
import type { CloseUp } from '../result.ts';
import type { KeptLeaf } from './kept-leaves.ts';

/** Leaves that follow each other become one stretch; each leaf counts once. */
export function closeUpsOf(
  leaves: readonly KeptLeaf[],
  channels: readonly Channel[],
  tick_s: number,
): readonly CloseUp[] {
  const ascending = [...new Set(leaves)].sort((a, b) => a.from - b.from);
  const stretches: KeptLeaf[][] = [];
  for (const leaf of ascending) {
    const last = stretches.at(-1);
    if (last?.at(-1)?.to === leaf.from) last.push(leaf);
    else stretches.push([leaf]);
  }
  return stretches.map((stretch) => closeUp(stretch, channels.length, tick_s));
}

/** The beginning of the first leaf, then the end of every step. */
function closeUp(stretch: readonly KeptLeaf[], channelCount: number, tick_s: number): CloseUp {
  const count = stretch.reduce((sum, { steps }) => sum + steps, 1);
  const time_s = new Float64Array(count);
  const values = Array.from({ length: channelCount }, () => new Float32Array(count));
  const [first] = stretch;
  const put = (at: number, leaf: KeptLeaf, row: number): void => {
    time_s[at] = leaf.ticks[row]! * tick_s;
    for (let c = 0; c < channelCount; c++) values[c]![at] = leaf.rows[row * channelCount + c]!;
  };
  put(0, first!, 0);
  let at = 1;
  for (const leaf of stretch) for (let row = 1; row <= leaf.steps; row++) put(at++, leaf, row);
  return { time_s, values };
}
