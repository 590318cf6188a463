/**
 * The built-in share law, written as a module: a run with it ends in the same bits as one without. Begin here.
 *
 *   u ← clamp((1 − T_s/T_leak) u + K T_s deadband(mean − y), ±U_max),  K = (R_d + R_line) I_r/τ_sh
 */
import type { ShareController, ShareSetup } from 'buswake';

/** Error beyond the dead band. */
function beyond(e: number, band: number): number {
  return e > band ? e - band : e < -band ? e + band : 0;
}

function clamp(u: number, most: number): number {
  return u > most ? most : u < -most ? -most : u;
}

/** Gain of shelf k [V/s]. */
function gain(k: number, { values, droop_ohm, rated_A }: ShareSetup): number {
  return ((droop_ohm[k]! + values.path_resistance_ohm) * rated_A[k]!) / values.time_constant_s;
}

export const controller: ShareController = {
  memory: ({ shelves }) => shelves.map((name) => `${name} trim`),

  run({ current_ratio, online }, trim_V, setup) {
    const { period_s, leak_time_s, dead_band_ratio, trim_limit_V } = setup.values;
    let sum = 0;
    let count = 0;
    for (let k = 0; k < trim_V.length; k++) {
      if (!online[k]) continue;
      sum += current_ratio[k]!;
      count++;
    }
    const mean = count > 0 ? sum / count : 0;
    for (let k = 0; k < trim_V.length; k++) {
      // Who is not on line keeps its trim.
      if (!online[k]) continue;
      const error = beyond(mean - current_ratio[k]!, dead_band_ratio);
      trim_V[k] = clamp(
        (1 - period_s / leak_time_s) * trim_V[k]! + gain(k, setup) * period_s * error,
        trim_limit_V,
      );
    }
    return trim_V;
  },

  // Where leakage and error hold each other in balance.
  rest(k, current_ratio, mean_ratio, setup) {
    const { leak_time_s, dead_band_ratio, trim_limit_V } = setup.values;
    const error = beyond(mean_ratio - current_ratio, dead_band_ratio);
    return clamp(leak_time_s * gain(k, setup) * error, trim_limit_V);
  },

  restingMemory: ({ trim_V }) => trim_V,
};
