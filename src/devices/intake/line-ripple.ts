/**
 * What single-phase modules do to the power into a shelf's bulk: each takes p(t) = P (1 − cos 2(ωt − φ)) from its phase
 * (power factor 1; Erickson and Maksimović, Fundamentals of Power Electronics, chapter 18). Over a shelf
 *
 *   p(t) = P m(t)      m(t) = 1 − R Σ w_φ cos 2(ωt − φ)      φ = 0, 2π/3, 4π/3
 *
 * w: share of its modules on each phase, R: how much of the pulsation is looked at (`line_ripple`; 0 none, 1 all). In
 * balance the three cancel; with two modules on two phases and one on the third a fifth is left, with a phase lost half.
 */
import { cosine, sine } from '../../base/sine.ts';

const phases = 3;

export class LineRipple {
  /** m at the start and at the end of the step, of each shelf. */
  readonly start: Float64Array;
  readonly end: Float64Array;
  /** Some shelf is looked at with its pulsation. */
  readonly isOn: boolean;
  private readonly counts: readonly (readonly number[])[];
  private readonly depth: Float64Array;
  private readonly perTick: Float64Array;
  /** R Σ w cos 2φ and R Σ w sin 2φ. */
  private readonly cosines: Float64Array;
  private readonly sines: Float64Array;

  /** `counts`: modules of each shelf on each phase; `depth`: R; `cyclesPerTick`: of the line, in a tick. */
  constructor(counts: readonly (readonly number[])[], depth: Float64Array, cyclesPerTick: Float64Array) {
    const n = counts.length;
    this.counts = counts;
    this.depth = depth;
    this.perTick = cyclesPerTick;
    this.start = new Float64Array(n).fill(1);
    this.end = new Float64Array(n).fill(1);
    this.cosines = new Float64Array(n);
    this.sines = new Float64Array(n);
    this.isOn = depth.some((R) => R > 0);
    for (let k = 0; k < n; k++) this.losePhase(k, false);
  }

  /** The first phase is lost at shelf k, or back: what the shelf takes comes from the modules that are left. */
  losePhase(k: number, lost: boolean): void {
    const counts = this.counts[k]!.map((count, phase) => (lost && phase === 0 ? 0 : count));
    const all = counts.reduce((a, b) => a + b, 0);
    const sum = (of: (x: number) => number): number =>
      counts.reduce((total, count, phase) => total + count * of((4 * Math.PI * phase) / phases), 0);
    this.cosines[k] = all > 0 ? (this.depth[k]! * sum(cosine)) / all : 0;
    this.sines[k] = all > 0 ? (this.depth[k]! * sum(sine)) / all : 0;
  }

  /** Writes m for a step from tick to tick. */
  span(from: number, to: number): void {
    this.at(this.start, from);
    this.at(this.end, to);
  }

  private at(out: Float64Array, tick: number): void {
    for (let k = 0; k < out.length; k++) {
      const turns = 2 * this.perTick[k]! * tick;
      const angle = 2 * Math.PI * (turns - Math.floor(turns));
      out[k] = 1 - this.cosines[k]! * cosine(angle) - this.sines[k]! * sine(angle);
    }
  }
}

/** Modules of each shelf on each phase, dealt out one after the other along the shelves of a feeder. */
export function modulesByPhase(
  shelves: readonly { readonly feeder: string; readonly modules: number }[],
): number[][] {
  const next = new Map<string, number>();
  return shelves.map(({ feeder, modules }) => {
    const counts = new Array<number>(phases).fill(0);
    const first = next.get(feeder) ?? 0;
    for (let j = 0; j < modules; j++) counts[(first + j) % phases]!++;
    next.set(feeder, (first + modules) % phases);
    return counts;
  });
}
