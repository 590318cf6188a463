/** The longest stay of a current above each of some levels. Only levels that it crosses are looked at. */
export class StaysAbove {
  /** [A], rising. */
  readonly levels: Float64Array;
  readonly longest_s: Float64Array;
  readonly longestFrom_s: Float64Array;
  private readonly openFrom: Float64Array;
  /** How many levels the current is above: the lowest ones. */
  private open = 0;

  constructor(levels: Float64Array) {
    this.levels = levels;
    this.longest_s = new Float64Array(levels.length);
    this.longestFrom_s = new Float64Array(levels.length);
    this.openFrom = new Float64Array(levels.length);
  }

  /** The current goes in a straight line from one moment to the next. */
  take(t0: number, a0: number, t1: number, a1: number): void {
    const { levels, openFrom } = this;
    const crossing = (level: number): number =>
      a0 === a1 ? t0 : t0 + ((t1 - t0) * (level - a0)) / (a1 - a0);
    while (this.open < levels.length && a1 >= levels[this.open]!) {
      const level = levels[this.open]!;
      openFrom[this.open++] = a0 >= level ? t0 : crossing(level);
    }
    while (this.open > 0 && a1 < levels[this.open - 1]!) {
      this.open--;
      this.close(this.open, crossing(levels[this.open]!));
    }
  }

  /** The run is over: stays that go on count as far as they have come. */
  end(at_s: number): void {
    for (let k = 0; k < this.open; k++) this.close(k, at_s);
  }

  /** Whether it is above the lowest level. */
  get isAbove(): boolean {
    return this.open > 0;
  }

  private close(k: number, to_s: number): void {
    const stay_s = to_s - this.openFrom[k]!;
    if (stay_s <= this.longest_s[k]!) return;
    this.longest_s[k] = stay_s;
    this.longestFrom_s[k] = this.openFrom[k]!;
  }
}
