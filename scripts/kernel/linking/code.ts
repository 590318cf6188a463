/** Code with gaps: bytes, and places that take a number once a cabinet's memory stands. */
import type { Type } from './instructions.ts';
import type { Sum } from './symbols.ts';

/**
 * `number`: a sum behind the code of a constant. `offset`: a sum behind an access to the memory. `base`: what an address is
 * counted from, 0 or the parameter of the structure that stands in several places, as the symbol says.
 */
export type Gap =
  | { readonly kind: 'number' | 'offset'; readonly sum: Sum }
  | { readonly kind: 'base'; readonly symbol: number; readonly parameter: number };

/** Where branches go: out of a block, or to the beginning of a loop. */
export interface Target {
  /** Branches that go there. */
  jumps: number;
}

/** A block, loop or choice around code that may branch out of it. */
export interface Nest {
  readonly kind: 'nest';
  readonly op: number;
  readonly target: Target;
  readonly body: Code;
  readonly otherwise: Code | null;
}

/** A branch: how far out is told once all of it stands. */
export interface Jump {
  readonly kind: 'jump';
  readonly op: number;
  readonly targets: readonly Target[];
}

/** A piece of code: bytes, gaps, and pieces in their order. A piece may grow after it was put in. */
export type Code = number | Gap | Nest | Jump | readonly Code[];

/** What the stack holds while code is folded. */
export interface Value {
  readonly type: Type;
  /** What leaves it on the stack, but for `sum`; null where it is that sum alone. */
  readonly code: Code | null;
  /** Added to what the code leaves. */
  readonly sum: Sum;
  /** Nothing that comes later can change it, and values of the same name and sum are the same; null: it can. */
  readonly fixed: string | null;
  /** Locals that the code reads. */
  readonly locals: readonly number[];
  readonly readsMemory: boolean;
}
