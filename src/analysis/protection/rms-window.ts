/**
 * Largest RMS of a current over any window of one length, looked at every sixteenth of that length: a burst as long as the
 * window may lie half a sixteenth off, which takes 1.6 % of its RMS at most.
 */
const parts = 16;

export class RmsWindow {
  readonly length_s: number;
  most_A = 0;
  mostFrom_s = 0;
  /** Of the last whole window. */
  last_A = 0;
  private readonly part_s: number;
  /** ∫ i² dt at the last parts' ends. */
  private readonly squares = new Float64Array(parts + 1);
  private ends = 0;
  private begun_s = Number.NaN;
  private sum = 0;

  constructor(length_s: number) {
    this.length_s = length_s;
    this.part_s = length_s / parts;
  }

  /** The current goes in a straight line from one moment to the next. */
  take(t0: number, a0: number, t1: number, a1: number): void {
    if (Number.isNaN(this.begun_s)) this.begun_s = t0;
    let next = this.begun_s + (this.ends + 1) * this.part_s;
    while (next <= t1) {
      const a = a0 + ((a1 - a0) * (next - t0)) / (t1 - t0);
      this.end(next, this.sum + square(t0, a0, next, a));
      next = this.begun_s + (this.ends + 1) * this.part_s;
    }
    this.sum += square(t0, a0, t1, a1);
  }

  private end(at_s: number, sum: number): void {
    this.ends++;
    const place = this.ends % (parts + 1);
    this.squares[place] = sum;
    if (this.ends < parts) return;
    const before = this.squares[(place + 1) % (parts + 1)]!;
    this.last_A = Math.sqrt(Math.max(0, sum - before) / this.length_s);
    if (this.last_A <= this.most_A) return;
    this.most_A = this.last_A;
    this.mostFrom_s = at_s - this.length_s;
  }
}

/** ∫ i² dt along a straight line. */
function square(t0: number, a0: number, t1: number, a1: number): number {
  return ((t1 - t0) * (a0 * a0 + a0 * a1 + a1 * a1)) / 3;
}
