/** An element that may make a cabinet hunt: where it stands, in which loop, and what its swing is at the shelf. */

import type { Element } from '../../../linear/cycles/describing.ts';
import type { DirectedLoop } from '../../../linear/cycles/opened.ts';
import type { Direction } from './directions.ts';

export interface Hunter {
  readonly element: string;
  /** What the element is given, in whose unit its amplitude is. */
  readonly given: string;
  readonly unit: 'V' | 'A';
  /** Its quantum, band or limit, in `unit`. */
  readonly size: number;
  readonly direction: Direction;
  readonly acts: Element;
  readonly loop: DirectedLoop;
  /** Input on which each shelf of the direction would rest without it, null where it has no bias. */
  readonly rests: readonly number[] | null;
  /** Amplitude of the shelf's current for one of the element's input; null where it is not said [A per `unit`]. */
  shelfCurrent_A(frequency_Hz: number, gain: number): number;
  /** Why nothing is said before any loop is looked at; null where it is. */
  readonly silent: string | null;
}
