/** How much time lay in gaps of which length, in steps of a fifth: bounded however many gaps there were. */
import type { GapReading } from '../result.ts';

/** Shortest length kept apart [ticks], and how many steps above it; together a tick to days. */
const shortest = 8;
const stepRatio = 1.2;
const steps = 150;

export class GapLengths {
  /** Least length of each step [ticks]. */
  private readonly least: Float64Array;
  private readonly total: Float64Array;
  private longest = 0;

  constructor() {
    this.least = new Float64Array(steps);
    for (let b = 1; b < steps; b++) this.least[b] = b === 1 ? shortest : this.least[b - 1]! * stepRatio;
    this.total = new Float64Array(steps);
  }

  /** A gap of so many ticks. */
  push(ticks: number): void {
    if (!(ticks > 0)) return;
    this.longest = Math.max(this.longest, ticks);
    let b = steps - 1;
    while (ticks < this.least[b]!) b--;
    this.total[b]! += ticks;
  }

  reading(tick_s: number): GapReading {
    const byLength: { at_least_s: number; total_s: number }[] = [];
    this.total.forEach((ticks, b) => {
      if (ticks > 0) byLength.push({ at_least_s: this.least[b]! * tick_s, total_s: ticks * tick_s });
    });
    return { longest_s: this.longest * tick_s, by_length: byLength };
  }
}
