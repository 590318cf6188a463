/** What is known of locals along each way through a function, and where ways meet. */
import { unsigned } from '../../../src/base/wasm-bytes.ts';
import type { Code, Target, Value } from './code.ts';
import { op, type Type } from './instructions.ts';
import { isSame, whole } from './values.ts';

/** A function that is being folded into another: where its locals stand, once one of them needs a place. */
export interface Frame {
  readonly types: readonly Type[];
  readonly places: number[];
}

/** Of each frame and local what it is known to hold; null: what its place holds. */
export type Known = (Value | null)[][];

/** A way that ends at a label, and what is put into places before it does. */
interface Arrival {
  readonly known: Known;
  readonly before: Code[];
}

export interface Label extends Target {
  readonly arrivals: Arrival[];
  /** Frames that are open there. */
  readonly depth: number;
  /** Where a block's result is put; it gets its place with the first branch. */
  readonly result: { readonly type: Type; place: number | null } | null;
  /** Of a loop: the locals that it may change. */
  readonly changed: readonly number[] | null;
}

export class Ways {
  readonly frames: Frame[] = [];
  /** Types of the places that the folded function has beside its parameters. */
  readonly places: Type[] = [];
  known: Known = [];
  private readonly parameters: number;

  constructor(parameters: number) {
    this.parameters = parameters;
  }

  /** A place that nothing else uses. */
  place(type: Type): number {
    this.places.push(type);
    return this.parameters + this.places.length - 1;
  }

  placeOf(frame: number, local: number): number {
    const { types, places } = this.frames[frame]!;
    places[local] ??= this.place(types[local]!);
    return places[local]!;
  }

  copy(depth: number = this.known.length): Known {
    return this.known.slice(0, depth).map((row) => [...row]);
  }

  /** Puts what a local is known to hold into its place. */
  put(known: Known, before: Code[], frame: number, local: number): void {
    const value = known[frame]![local] ?? null;
    if (value === null) return;
    before.push([whole(value), op.set, ...unsigned(this.placeOf(frame, local))]);
    known[frame]![local] = null;
  }

  /** What is known where several ways meet: what all of them agree on. */
  meet(arrivals: readonly Arrival[]): void {
    const [first] = arrivals;
    this.known = first!.known.map((row) => [...row]);
    this.known.forEach((row, frame) => {
      row.forEach((value, local) => {
        if (arrivals.every(({ known }) => isSame(known[frame]![local]!, value))) return;
        for (const { known, before } of arrivals) this.put(known, before, frame, local);
        row[local] = null;
      });
    });
  }
}
