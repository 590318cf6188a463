/** Seconds to ticks. Declared times must be whole ticks; what is drawn or recorded is rounded and the rounding kept. */

/** Part of a tick that floating point may be off and still count as whole. */
const slack_ticks = 1e-3;

/** Whole ticks of a declared time, or null when it lies between two ticks. */
export function wholeTicks(time_s: number, tick_s: number): number | null {
  const exact = time_s / tick_s;
  const ticks = Math.round(exact);
  return Math.abs(exact - ticks) <= slack_ticks ? ticks : null;
}

/** Rounds times to ticks and remembers the largest shift. */
export class TickRounder {
  private readonly tick_s: number;
  private largest_ticks = 0;

  constructor(tick_s: number) {
    this.tick_s = tick_s;
  }

  round(time_s: number): number {
    const exact = time_s / this.tick_s;
    const ticks = Math.round(exact);
    const shift = Math.abs(exact - ticks);
    if (shift > slack_ticks && shift > this.largest_ticks) this.largest_ticks = shift;
    return ticks;
  }

  /** Largest shift so far [s]; 0 when all times were whole ticks. */
  get rounding_s(): number {
    return this.largest_ticks * this.tick_s;
  }
}
