/**
 * Most of ∫ i² dt over any window of one length. A window is looked at from a part before it to its end, so that any window
 * of that length lies in one that was looked at: what is told is never too little, and too much by a part's at most.
 */
const parts = 32;

export class RmsWindow {
  readonly length_s: number;
  /** [A² s]; before the run the current is 0. */
  most_A2s = 0;
  mostFrom_s = 0;
  /** Of the last that was looked at. */
  last_A2s = 0;
  private readonly part_s: number;
  private readonly begun_s: number;
  /** The integral from the beginning to the last parts' ends. */
  private readonly squares = new Float64Array(parts + 1);
  private ends = 0;
  /** When the next part ends. */
  next_s: number;

  constructor(length_s: number, begun_s: number) {
    this.length_s = length_s;
    this.part_s = length_s / parts;
    this.begun_s = begun_s;
    this.next_s = begun_s + this.part_s;
  }

  /** A part ends at `next_s`, or the run before it does: the integral from the beginning to there. */
  end(at_s: number, square_A2s: number): void {
    this.ends++;
    const place = this.ends % (parts + 1);
    const before = this.ends > parts ? this.squares[place]! : 0;
    this.squares[place] = square_A2s;
    this.next_s = this.begun_s + (this.ends + 1) * this.part_s;
    this.last_A2s = square_A2s - before;
    if (this.last_A2s <= this.most_A2s) return;
    this.most_A2s = this.last_A2s;
    this.mostFrom_s = Math.max(this.begun_s, at_s - this.length_s);
  }
}
