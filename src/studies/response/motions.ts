/**
 * Motions of the cabinet at each frequency that anybody asks for, computed once: under all drives with the firmware in
 * its loops, and of the set points with all commands held where that is faster than any task can follow.
 */
import { Curves, type Drive, type Motion } from '../../linear/curves.ts';
import { outerTasks, type Sampled } from '../../linear/sampled.ts';

export class Motions {
  readonly curves: Curves;
  private readonly held: Curves;
  private readonly half_sampling_Hz: number;
  private readonly known: Known = new Map();
  private readonly knownHeld: Known = new Map();

  /** `together`: frequencies at which motions under all of `drives` are wanted. */
  constructor(system: Sampled, drives: readonly Drive[], together_Hz: readonly number[]) {
    this.curves = new Curves(system);
    this.held = new Curves(system, false);
    const shortest = Math.min(...outerTasks(system).map(({ period }) => period));
    this.half_sampling_Hz = system.tasks.length === 0 ? 0 : 0.5 / (shortest * system.tick_s);
    for (const frequency_Hz of together_Hz) this.under(drives, frequency_Hz);
  }

  /** Under some drives, in their order. */
  under(drives: readonly Drive[], frequency_Hz: number): readonly Motion[] {
    return asked(this.curves, this.known, drives, frequency_Hz);
  }

  /** The same with all commands held above half the rate of the fastest task: it answers there at other frequencies. */
  underFast(drives: readonly Drive[], frequency_Hz: number): readonly Motion[] {
    return frequency_Hz <= this.half_sampling_Hz
      ? this.under(drives, frequency_Hz)
      : this.underHeld(drives, frequency_Hz);
  }

  /** The same with all commands held. */
  underHeld(drives: readonly Drive[], frequency_Hz: number): readonly Motion[] {
    return asked(this.held, this.knownHeld, drives, frequency_Hz);
  }
}

type Known = Map<Drive, Map<number, Motion>>;

/** Drives that are not known yet are computed together. */
function asked(
  curves: Curves,
  known: Known,
  drives: readonly Drive[],
  frequency_Hz: number,
): readonly Motion[] {
  const missing = drives.filter((drive) => !known.get(drive)?.has(frequency_Hz));
  if (missing.length > 0) {
    curves.at(frequency_Hz, missing).forEach((motion, k) => {
      const drive = missing[k]!;
      const own = known.get(drive) ?? new Map<number, Motion>();
      known.set(drive, own.set(frequency_Hz, motion));
    });
  }
  return drives.map((drive) => known.get(drive)!.get(frequency_Hz)!);
}
