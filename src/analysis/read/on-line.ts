/** The 10 ms means of the shelves' currents, and which shelves are on line in each. */
import type { Span } from '../../events/spans.ts';
import { type Case, outSpans, ratedCurrent } from '../record/case.ts';
import { holds } from '../record/spans.ts';

/** A shelf's 10 ms means, its rated current [A], and when it was out. */
export interface ShelfMeans {
  readonly id: string;
  readonly means: Float64Array;
  readonly rated: number;
  readonly out: readonly Span[];
}

/** Of every shelf whose means were kept. */
export function shelfMeans(c: Case): ShelfMeans[] {
  return c.scenario.shelves.flatMap(({ id, values }) => {
    const means = c.result.means.columns.get(`${id}.current_A`);
    return means === undefined ? [] : [{ id, means, rated: ratedCurrent(values), out: outSpans(c, id) }];
  });
}

/** The shelves on line, 10 ms after 10 ms. */
export class OnLine {
  private readonly shelves: readonly ShelfMeans[];
  private readonly left_out: readonly Span[];
  /** Some shelf is out at some time. */
  private readonly leave: boolean;
  private readonly from_s: number;
  private readonly width_s: number;

  constructor({ result }: Case, shelves: readonly ShelfMeans[], left_out: readonly Span[]) {
    this.shelves = shelves;
    this.left_out = left_out;
    this.leave = shelves.some(({ out }) => out.length > 0);
    this.from_s = result.means.from_s;
    this.width_s = result.means.width_s;
  }

  /** Those of mean j; null where it begins in what is left out. */
  at(j: number): readonly ShelfMeans[] | null {
    const time_s = this.from_s + j * this.width_s;
    if (holds(this.left_out, time_s)) return null;
    return this.leave ? this.shelves.filter(({ out }) => !holds(out, time_s)) : this.shelves;
  }
}
