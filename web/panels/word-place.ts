/** Places for words at lines of a panel: inside it, and clear of words that stand there already. */
import type { Box } from '../frame.ts';

/** Height of a line of words [px]. */
export const line_px = 14;
/** Between words, and from the panel's edge [px]. */
export const gap_px = 8;

/**
 * A place at the line, on the side beyond the limit where there is room and no other line, as far right as the others
 * allow. `lines` are heights that words should not stand across.
 */
export function placeWords(
  width: number,
  right: number,
  at: number,
  side: 'lower' | 'upper',
  height: number,
  taken: readonly Box[],
  lines: readonly number[] = [],
): Box | null {
  const tops = [at + 2, at - line_px - 1];
  if (side === 'upper') tops.reverse();
  const crossed = (top: number): number => lines.filter((y) => y > top - 2 && y < top + line_px + 1).length;
  for (const top of tops.sort((a, b) => crossed(a) - crossed(b))) {
    if (top < 0 || top + line_px > height) continue;
    for (let left = right - width; left >= gap_px / 2; ) {
      const hit = taken.find(
        (box) =>
          Math.abs(box.top - top) < line_px &&
          left < box.left + box.width + gap_px &&
          box.left < left + width + gap_px,
      );
      if (hit === undefined) return { left, top, width };
      left = hit.left - gap_px - width - 1;
    }
  }
  return null;
}
