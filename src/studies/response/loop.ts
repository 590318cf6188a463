/** A loop of the cabinet as it is given out. */
import type { Margins } from '../../linear/loops/margins.ts';
import type { Curve } from './curve.ts';

/**
 * What is opened: all loops of a kind at once; one of them, the others closed; all at once but driven alike, which
 * shows one direction of many; or a loop that is alone of its kind.
 */
export type LoopKind = 'coupled' | 'one of several' | 'one direction' | 'single';

/** A loop opened at one place or at several alike: what it is, and its margins. */
export interface Loop extends Margins {
  readonly name: string;
  readonly kind: LoopKind;
  readonly about: string;
  /** Places at which it is opened. */
  readonly places: number;
}

/** A loop with its gain as a curve; of several loops, the locus that has the least margin. */
export interface DrawnLoop extends Loop {
  readonly curve: Curve;
}
