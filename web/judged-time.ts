/** What of a run is not judged, for the shading of panels: each stretch with the one word that says why. */
import type { Report } from '../src/analysis/judge/report.ts';
import type { Span } from '../src/events/spans.ts';

export interface Shade extends Span {
  readonly word: string;
  /** Some limit of the panel is judged here all the same. */
  readonly partly: boolean;
}

const words = { 'ac-lost': 'AC lost', 'walk-in': 'walk-in', settling: 'settling' } as const;

/** What of the AC side is judged all the same, beside the word. */
const rest = { 'ac-lost': '', 'walk-in': ': ramps over 1 s alone', settling: ': ramps alone' } as const;

/** Outside the judged window: for every panel. */
export function outsideWindow({ window_s }: Report, [start, end]: readonly [number, number]): Shade[] {
  const before = { from_s: start, to_s: window_s.from, word: 'warm-up', partly: false };
  const after = { from_s: window_s.to, to_s: end, word: 'unjudged', partly: false };
  return [before, after].filter(({ from_s, to_s }) => to_s - from_s > 1e-9);
}

/** Where bands, tones and range of the AC power are not judged. */
export function outsideBands(report: Report, whole_s: readonly [number, number]): Shade[] {
  const inside = report.left_out.map(({ from_s, to_s, why }) => ({
    from_s,
    to_s,
    word: `${words[why]}${rest[why]}`,
    partly: why !== 'ac-lost',
  }));
  return [...outsideWindow(report, whole_s), ...inside];
}

/**
 * Where ramps over `window_s` are not judged. A ramp looks that far back and ahead of its moment, so what leaves it out
 * reaches that far beyond its own ends; walk-in leaves out ramps shorter than 1 s only.
 */
export function outsideRamps(report: Report, whole_s: readonly [number, number], window_s: number): Shade[] {
  const inside = report.left_out
    .filter(({ why }) => why === 'ac-lost' || (why === 'walk-in' && window_s < 1))
    .map(({ from_s, to_s, why }) => ({
      from_s: Math.max(whole_s[0], from_s - window_s),
      to_s: Math.min(whole_s[1], to_s + window_s),
      word: words[why],
      partly: false,
    }));
  return [...outsideWindow(report, whole_s), ...inside];
}
