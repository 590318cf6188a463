/** What is worst of margins: each margin of each loop, and the damping of modes, as numbers that are worse the lower they are. */
import type { Margins } from '../../../linear/loops/margins.ts';
import type { Loop } from '../loop.ts';
import type { MarginsAt } from '../margins-at.ts';

/** Margins that are looked for, with what they are counted in. */
export const searched = {
  gain_margin_dB: 'dB',
  gain_down_dB: 'dB',
  phase_margin_deg: '°',
  delay_margin_s: 's',
  clearance_ratio: '',
  disk_ratio: '',
} as const satisfies Partial<Record<keyof Margins, string>>;

export type Searched = keyof typeof searched;

export interface Criterion {
  /** `voltage loops`, without the unit that it is of; `modes`. */
  readonly of: string;
  readonly what: Searched | 'damping_below_1kHz' | 'damping_below_10kHz';
}

/** The name of a loop without its unit: another is the nearest to −1, or the first that runs, in another state. */
export function loopFamily({ name }: Pick<Loop, 'name'>): string {
  return name.replace(/ of .*?( together)?$/, '$1');
}

/** Everything that is worst somewhere among what was found, in the order in which loops are told. */
export function criteriaOf(found: readonly MarginsAt[]): readonly Criterion[] {
  const names = [...new Set(found.flatMap(({ loops }) => loops.map(loopFamily)))];
  return [
    ...names.flatMap((of) => (Object.keys(searched) as Searched[]).map((what): Criterion => ({ of, what }))),
    { of: 'modes', what: 'damping_below_1kHz' },
    { of: 'modes', what: 'damping_below_10kHz' },
  ];
}

/**
 * How bad it is at a point, lower is worse: −∞ where a mode grows, +∞ where nothing within reach takes it; null where there is
 * no such loop or no settled point. Of a fall of gain and of a lead the size counts.
 */
export function badness({ of, what }: Criterion, found: MarginsAt): number | null {
  if (found.reason !== null) return null;
  if (of === 'modes') {
    if (found.growing !== null) return Number.NEGATIVE_INFINITY;
    const mode = what === 'damping_below_1kHz' ? found.slow : found.fast;
    return mode?.damping_ratio ?? Number.POSITIVE_INFINITY;
  }
  const own = found.loops.filter((loop) => loopFamily(loop) === of);
  if (own.length === 0) return null;
  if (found.growing !== null) return Number.NEGATIVE_INFINITY;
  return Math.min(...own.map((loop) => Math.abs(loop[what as Searched] ?? Number.POSITIVE_INFINITY)));
}
