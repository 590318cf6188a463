/** Corners of a curve in the making, in order of time. Ticks are whole; powers in W. */
export class Curve {
  readonly ticks: number[] = [];
  readonly values: number[] = [];

  /** A corner that does not come after the last one is left out: a flat part of no length needs no corner. */
  add(tick: number, value: number): void {
    if (this.ticks.length > 0 && this.ticks[this.ticks.length - 1]! >= tick) return;
    this.ticks.push(tick);
    this.values.push(value);
  }

  /** Value that the last corner left. */
  get level(): number {
    return this.values[this.values.length - 1] ?? Number.NaN;
  }

  get end(): number {
    return this.ticks[this.ticks.length - 1] ?? Number.NEGATIVE_INFINITY;
  }

  /**
   * Goes to `level` by a straight edge that begins at `tick`, or as soon as the edge before it has ended. Nothing
   * happens where the level is already there.
   */
  go(tick: number, level: number, edge: number): void {
    if (this.level === level) return;
    const from = Math.max(tick, this.end);
    this.add(from, this.level);
    this.add(from + edge, level);
  }

  /** A pulse to `level` and back: half heights lie `length` apart; each edge ends before the next begins. */
  pulse(tick: number, level: number, length: number, edge: number): void {
    const base = this.level;
    this.go(tick, level, edge);
    this.go(tick + length, base, edge);
  }
}
