/** Where in the judged window some limits are not judged, for whoever draws the run: one reason at a time. */
import type { Span } from '../../events/spans.ts';
import { listed } from '../../scenario/text/nearest.ts';
import type { Applies } from '../record/applies.ts';
import { joined, without } from '../record/spans.ts';

/**
 * Why: `ac-lost`: no AC limit; `walk-in`: of the AC limits only the ramp over 1 s; `settling`: within 10 s after a start
 * or stop, no band, tone or range (`applies.ts`).
 */
export interface LeftOut extends Span {
  readonly why: 'ac-lost' | 'walk-in' | 'settling';
}

/** In time order and apart from each other: where two hold, the one that leaves out more. */
export function leftOutIn({ lost, walkIn, starts }: Applies, window: Span): LeftOut[] {
  const kinds: readonly (readonly [LeftOut['why'], readonly Span[]])[] = [
    ['ac-lost', lost],
    ['walk-in', walkIn],
    ['settling', starts],
  ];
  const taken: Span[] = [];
  const stretches = kinds.flatMap(([why, spans]) => {
    const own = joined(spans).flatMap(({ from_s, to_s }) => {
      const inside = { from_s: Math.max(from_s, window.from_s), to_s: Math.min(to_s, window.to_s) };
      return without(inside, taken);
    });
    taken.push(...own);
    return own.map(({ from_s, to_s }) => ({ from_s, to_s, why }));
  });
  return stretches.sort((a, b) => a.from_s - b.from_s);
}

export const whyWords: Readonly<Record<LeftOut['why'], string>> = {
  'ac-lost': 'AC lost',
  'walk-in': 'walk-in',
  settling: 'settling after a start or stop',
};

/** Why a worst value is not judged: what its moment was, and of one without a moment what the window holds beside what is judged. */
export function whyOutside(leftOut: readonly LeftOut[], time_s: number | null): string {
  const there = leftOut.find(({ from_s, to_s }) => time_s !== null && time_s >= from_s && time_s < to_s);
  if (there !== undefined) return whyWords[there.why];
  const whys = [...new Set(leftOut.map(({ why }) => whyWords[why]))];
  return `over the whole window${whys.length === 0 ? '' : `, ${listed(whys, 'and')} included`}`;
}
