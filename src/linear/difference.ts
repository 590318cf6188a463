/** Central differences over one variable. */

/** Step of a difference over the size of its variable. */
const differenceStep = 1e-5;

/** Step of the difference over a variable of this size. */
export function stepAt(value: number, size: number): number {
  return differenceStep * Math.max(Math.abs(value), size);
}

/** Takes the slopes of `evaluate`'s outcome over one variable at some places of it, by a central difference. */
export class Differences {
  private readonly above: Float64Array;
  private readonly below: Float64Array;

  /** Of outcomes of so many numbers. */
  constructor(count: number) {
    this.above = new Float64Array(count);
    this.below = new Float64Array(count);
  }

  over(
    value: Float64Array,
    place: number,
    size: number,
    evaluate: (out: Float64Array) => void,
    at: readonly number[],
    take: (k: number, slope: number) => void,
  ): void {
    const { above, below } = this;
    const rest = value[place]!;
    const d = stepAt(rest, size);
    const up = rest + d;
    const down = rest - d;
    value[place] = up;
    evaluate(above);
    value[place] = down;
    evaluate(below);
    value[place] = rest;
    for (const k of at) if (above[k] !== below[k]) take(k, (above[k]! - below[k]!) / (up - down));
  }
}
