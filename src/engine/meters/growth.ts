/**
 * How a row of half swings grew: where its swing first passed each doubling of its floor. Between two doublings a
 * mode grows as the linear model says, at its own frequency; once clamps hold the swing, both are another.
 */
const doublings = 10;

/** Doublings that are not used: below four floors the ladder may step too coarsely for so small a swing. */
const coarse = 2;

export interface Growth {
  readonly frequency_Hz: number;
  readonly rate_per_s: number;
  /** Doublings that it is read from. */
  readonly doublings: number;
}

export class GrowthMarks {
  private passed = 0;
  /** The next doubling, in floors. */
  private next = 1;
  private readonly tick = new Float64Array(doublings);
  private readonly count = new Float64Array(doublings);

  begin(): void {
    this.passed = 0;
    this.next = 1;
  }

  /** The row's half swing number `count` swung by `floors` times the floor and ended at `tick`. */
  push(floors: number, count: number, tick: number): void {
    while (this.passed < doublings && floors >= this.next) {
      this.tick[this.passed] = tick;
      this.count[this.passed] = count;
      this.passed++;
      this.next *= 2;
    }
  }

  /** The growth up to half of the largest swing; null where less than one doubling of it, or six half swings, were seen. */
  reading(tick_s: number): Growth | null {
    const last = this.passed - 2;
    for (let first = coarse; first < last; first++) {
      // A row that begins with a large swing passes several at once.
      if (this.tick[first + 1] === this.tick[first]) continue;
      const length_s = (this.tick[last]! - this.tick[first]!) * tick_s;
      const count = this.count[last]! - this.count[first]!;
      if (count < 6) return null;
      const grown = last - first;
      return {
        frequency_Hz: count / 2 / length_s,
        rate_per_s: (grown * Math.LN2) / length_s,
        doublings: grown,
      };
    }
    return null;
  }
}
