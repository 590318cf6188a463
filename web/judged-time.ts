/** What of a run is not judged, for the shading of panels: each stretch with words that say why. */
import { type LeftOut, whyWords } from '../src/analysis/judge/left-out.ts';
import type { Report } from '../src/analysis/judge/report.ts';
import type { Span } from '../src/events/spans.ts';

export interface Shade extends Span {
  /** The same in fewer and fewer words: the first for which there is room is written. */
  readonly words: readonly string[];
  /** Some limit of the panel is judged here all the same. */
  readonly partly: boolean;
}

type Outside = Pick<Report, 'window_s' | 'left_out'>;

/** Why a stretch is left out, in short. */
const short = { ...whyWords, settling: 'settling' };

/** What of the AC side is judged there all the same. */
const judged = {
  'ac-lost': 'no AC limit judged',
  'walk-in': 'only ramps over 1 s judged',
  settling: 'only ramps judged',
} as const;

/** Outside the judged window: for every panel. */
export function outsideWindow({ window_s }: Outside, [start, end]: readonly [number, number]): Shade[] {
  const words = { before: ['warm-up: not judged', 'warm-up'], after: ['not judged'] };
  const before = { from_s: start, to_s: window_s.from, words: words.before, partly: false };
  const after = { from_s: window_s.to, to_s: end, words: words.after, partly: false };
  return [before, after].filter(({ from_s, to_s }) => to_s - from_s > 1e-9);
}

/** Where bands, tones and range of the AC power are not judged. */
export function outsideBands(report: Outside, whole_s: readonly [number, number]): Shade[] {
  const inside = report.left_out.map((one) => {
    const { from_s, to_s, why } = one;
    return { from_s, to_s, words: wordsOf(one, report), partly: why !== 'ac-lost' };
  });
  return [...outsideWindow(report, whole_s), ...inside];
}

/**
 * Where ramps over `window_s` are not judged. A ramp looks that far back and ahead of its moment, so what leaves it out
 * reaches that far beyond its own ends; walk-in leaves out ramps shorter than 1 s only.
 */
export function outsideRamps(report: Outside, whole_s: readonly [number, number], window_s: number): Shade[] {
  const inside = report.left_out
    .filter(({ why }) => why === 'ac-lost' || (why === 'walk-in' && window_s < 1))
    .map(({ from_s, to_s, why }) => ({
      from_s: Math.max(whole_s[0], from_s - window_s),
      to_s: Math.min(whole_s[1], to_s + window_s),
      words: [`${short[why]}: not judged`, short[why]],
      partly: false,
    }));
  return [...outsideWindow(report, whole_s), ...inside];
}

/** A shelf that has AC again waits before it walks in, and counts AC as lost until then. */
function wordsOf({ why, to_s }: LeftOut, { left_out }: Outside): readonly string[] {
  const brief = [`${short[why]}: ${judged[why]}`, short[why]];
  if (why === 'settling') return [`${whyWords[why]}: ${judged[why]}`, ...brief];
  if (why === 'walk-in' || !left_out.some((next) => next.why === 'walk-in' && next.from_s === to_s))
    return brief;
  const until = 'AC lost until the last shelf walks in';
  return [`${until}: ${judged[why]}`, until, short[why]];
}
