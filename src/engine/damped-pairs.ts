/**
 * Damped steps two by two, in the place of usual ones, after a command has jumped by little.
 *
 * The trapezoidal rule keeps what is much faster than its step as a zigzag from step to step, so that a jump of one shelf's
 * set point by a quantum had to be stepped out finely: a dozen steps for some millivolts. Two steps of weights
 *
 *   x1 = x0 + γH flow1                      γH long, backward Euler
 *   x2 = x1 + (1 − 2γ)H flow1 + γH flow2    the rest of H
 *
 * with γ = 1 − 1/√2 are of second order together and leave nothing of what is fast (L-stable: R. Alexander, SIAM Journal on
 * Numerical Analysis 14, 1977, 1006–1021, from memory). Both ends weigh the same, so one rung serves both. What rings at about
 * 1 kHz, bars against capacitors, needs a second pair; a swing at 700 Hz loses 4 % in a pair of 0.5 ms, one at 300 Hz 0.3 %, one
 * at 50 Hz some millionths.
 */

const gamma = 1 - Math.SQRT1_2;

/** Pairs that follow a jump. */
const pairs = 2;

export class DampedPairs {
  /** Pairs still to come. */
  private left = 0;
  private part: 'none' | 'first' | 'second' = 'none';
  private first = 0;
  private whole = 0;

  /** A command has jumped by little: pairs begin with the next step. */
  ask(): void {
    this.left = pairs;
    this.part = 'none';
  }

  /** The bus needs more than that: no pair goes on, none begins. */
  drop(): void {
    this.left = 0;
    this.part = 'none';
  }

  /** The step last asked for is one of a pair. */
  get isOn(): boolean {
    return this.part !== 'none';
  }

  /** Length of the trapezoidal step whose rung both steps of the pair take [ticks]. */
  get rungTicks(): number {
    return 2 * this.first;
  }

  /**
   * Length of the next step if it is one of a pair, else 0 [ticks]: first ones make pairs of `most`, if that is at least
   * `least`; second ones go to the end of theirs, if that is no more than `left`.
   */
  next(least: number, most: number, left: number): number {
    const { whole, first } = this;
    if (this.part === 'second') {
      if (whole - first <= left) return whole - first;
      this.drop();
    }
    if (this.left === 0 || most < least) return 0;
    this.part = 'first';
    this.whole = most;
    this.first = Math.round(gamma * most);
    return this.first;
  }

  /** The step last asked for was accepted. */
  done(): void {
    if (this.part === 'first') {
      this.part = 'second';
      return;
    }
    this.part = 'none';
    this.left--;
  }
}
