/** What is asked of one run with a swing put in. */
import type { SettledAsked } from '../settled.ts';
import type { SummingPoint } from './drives.ts';

export interface InjectAsked extends SettledAsked {
  readonly point: SummingPoint;
  /** Of a sine one, of a chirp those that are read, ascending. */
  readonly frequencies_Hz: readonly number[];
  /** How long a chirp sweeps; null: a sine. */
  readonly sweep_s: number | null;
  /** Height, W, V or A. */
  readonly amplitude: number;
  /** How many times the amplitude clamps are looked for up to; 0: they are not looked for. */
  readonly clamps_within: number;
}
