/** What samples show of being wrong. A sign is no proof: what may also be true is said as a question. */

export type SignKind =
  | 'frozen'
  | 'straight'
  | 'zeros'
  | 'clipped'
  | 'spike'
  | 'running count'
  | 'doubled'
  | 'smoothed'
  | 'two scales'
  | 'another scale'
  | 'never changes'
  | 'twin'
  | 'apart'
  | 'interleaved'
  | 'hurried'
  | 'repeated';

export interface Sign {
  readonly kind: SignKind;
  readonly channel: string;
  /** Where it shows, counted as the stamps are [s]. */
  readonly from_s: number;
  readonly to_s: number;
  /** What the samples show, with its figures. */
  readonly shows: string;
  /** What it may be, and what it may be in truth: a question. */
  readonly asks: string;
}

/** A sign as one sentence. */
export function signSentence({ shows, asks }: Sign): string {
  return `${shows}: ${asks}`;
}

/** A channel to look at: any quantity, in any unit, by rising stamps. */
export interface Sampled {
  readonly name: string;
  readonly time_s: Float64Array;
  readonly values: Float64Array;
  /** A value with its unit, as people read it. */
  readonly written: (value: number) => string;
  /** It may rest at its lowest for long, as a power at idle does: that it then stands still is no sign. */
  readonly rests: boolean;
}

/** Fewer samples show no rule that one of them could break. */
export const fewestSamples = 50;
