/**
 * Loop gains of the running shelves' voltage loops, opened at their errors e = V + u − R_d i_f − v_s, so that a change
 * of gain is the same change of K_p and K_i. What a volt put into error k brings back to error i is H; with all loops
 * opened at once the loop gain is the matrix L = −H (I + H)⁻¹, of one with the others closed −H_kk/(1 + H_kk).
 */
import type { Complex } from '../../linear/complex.ts';
import type { ComplexMatrix } from '../../linear/complex-matrix.ts';
import { loopGain, type Motion } from '../../linear/curves.ts';
import type { LoopAt } from '../../linear/loops/margins.ts';
import { openedLoop } from '../../linear/loops/opened.ts';
import type { Places } from './places.ts';

export interface VoltageLoops {
  readonly shelves: readonly string[];
  /** All opened at once. */
  readonly coupled: LoopAt;
  /** All opened at once and driven alike, the mean of what comes back: what a designer calls the cabinet's loop gain. */
  readonly common: LoopAt;
  /** Of each shelf, the others closed and all commands held. */
  readonly single: readonly LoopAt[];
}

/**
 * `motions`: under the set point of each running shelf in turn, at a frequency; `held`: the same with all commands held,
 * for single loops: a shelf that differs from the others is what the share task samples, and what it answers comes back
 * at other frequencies too.
 */
export function voltageLoops(
  { fedBack, setPoint }: Places,
  motions: (frequency_Hz: number) => readonly Motion[],
  held: (frequency_Hz: number) => readonly Motion[] = motions,
): VoltageLoops {
  const closed = (frequency_Hz: number): ComplexMatrix => {
    const moved = motions(frequency_Hz);
    return fedBack.map((reading) => moved.map((motion) => motion.read(reading)));
  };
  const coupled: LoopAt = (frequency_Hz) => openedLoop(closed(frequency_Hz));
  return {
    shelves: setPoint.map(({ name }) => name.replace('set point of ', '')),
    coupled,
    common: (frequency_Hz) => [[meanOver(coupled(frequency_Hz))]],
    single: fedBack.map((reading, k) => (frequency_Hz) => [[loopGain(held(frequency_Hz)[k]!.read(reading))]]),
  };
}

/** 1ᵀ L 1/n. */
function meanOver(L: ComplexMatrix): Complex {
  let [re, im] = [0, 0];
  for (const row of L) {
    for (const a of row) {
      re += a.re / L.length;
      im += a.im / L.length;
    }
  }
  return { re, im };
}
