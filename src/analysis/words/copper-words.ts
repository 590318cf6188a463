/** What each bar carries and how warm it gets, in words: a row a bar, the nearest to its limit first. */
import { ratedRise_K } from '../../copper/rating.ts';
import type { Report } from '../judge/report.ts';
import type { CopperBar } from '../read/copper.ts';
import { numberText } from './number-text.ts';

/** How near a bar and its joints come to what is allowed. */
export type Warmth = 'below half' | 'above half' | 'over' | 'not told';

export const warmthWords: Readonly<Record<Warmth, string>> = {
  'below half': 'below half of what is allowed',
  'above half': 'above half of it',
  over: 'over what is allowed',
  'not told': 'no rating stated',
};

/** A bar with the share of the allowed rise that it, or its joint where that is nearer, takes; null: neither is told. */
export interface JudgedBar extends CopperBar {
  readonly of_allowed_ratio: number | null;
  readonly warmth: Warmth;
}

/** By the limits `bar-heat` and `joint-heat` of the run; by the rating where there is none. The nearest first. */
export function judgedCopper({
  copper,
  findings,
}: Pick<Report, 'copper' | 'findings'>): readonly JudgedBar[] {
  const limit = (id: string): number | null => findings.find((one) => one.id === id)?.limit ?? null;
  const bar_K = (limit('bar-heat') ?? 1) * ratedRise_K;
  const joint_K = limit('joint-heat');
  const judged = (copper?.bars ?? []).map((bar): JudgedBar => {
    const shares = [
      ...(bar.rise_K === null ? [] : [bar.rise_K / bar_K]),
      ...(bar.joint_K === null || joint_K === null ? [] : [bar.joint_K / joint_K]),
      ...(bar.runs_away ? [Number.POSITIVE_INFINITY] : []),
    ];
    const most = shares.length === 0 ? null : Math.max(...shares);
    const warmth = most === null ? 'not told' : most > 1 ? 'over' : most > 0.5 ? 'above half' : 'below half';
    return { ...bar, of_allowed_ratio: most, warmth };
  });
  return judged.sort((a, b) => (b.of_allowed_ratio ?? -1) - (a.of_allowed_ratio ?? -1));
}

export const copperHead = [
  'bar',
  'RMS',
  'rated',
  'of its rating',
  'over its air',
  'its joint over it',
  'warmth',
] as const;

export function copperRow({ bar, rms_A, rated_A, rise_K, joint_K, runs_away, warmth }: JudgedBar): string[] {
  return [
    bar,
    numberText(rms_A, 'A'),
    rated_A === null ? '–' : numberText(rated_A, 'A'),
    rated_A === null ? '–' : numberText(rms_A / rated_A, 'ratio', 3),
    riseText(rise_K),
    runs_away ? 'runs away' : riseText(joint_K),
    warmthWords[warmth],
  ];
}

/** All of a row as a sentence. */
export function copperWords(bar: JudgedBar): string {
  const [name, rms, , share, rise, joint, warmth] = copperRow(bar);
  return `${name}: ${rms} RMS, ${share} of its rating; ${rise} over its air, its joint ${joint} more; ${warmth}`;
}

export function riseText(rise_K: number | null): string {
  return rise_K === null ? '–' : `${rise_K < 9.95 ? rise_K.toFixed(1) : rise_K.toFixed(0)} K`;
}

/** The sentence above them. */
export function copperSentence(bars: readonly JudgedBar[]): string {
  const [most] = bars;
  if (most === undefined) return 'No bar carried a current that was recorded.';
  if (most.of_allowed_ratio === null) return 'No bar states a rating: its warmth is not told.';
  const share = Number.isFinite(most.of_allowed_ratio)
    ? `${numberText(most.of_allowed_ratio, 'ratio', 3)} of what is allowed`
    : 'its joint runs away';
  return `${most.bar} comes nearest: ${numberText(most.rms_A, 'A')} RMS, ${riseText(most.rise_K)} over its air, ${share}.`;
}
