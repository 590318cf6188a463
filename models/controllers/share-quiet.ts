/**
 * Average share that does not hunt: the built-in law with a dead band that fits the quantum of the trim.
 *
 * One quantum q of a shelf's trim moves its current by q/((R_d + R_line) I_r) of rated, 1.7 % in the reference
 * cabinet. A dead band narrower than that cannot be met from both sides, and the trims step to and fro for good. Here
 * a correction begins where the error is beyond `begin` of that step and ends within `end` of it, where the trim is
 * put on the multiple of q that stands; and only the mean of the trims leaks, since a leak of each one would push it
 * out of its band again.
 */
import type { ShareController, ShareSetup } from 'buswake';

const begin = 0.75;
const end = 0.5;

/** How steep the search for the start takes the resting trim over the error [s]: a hundred time constants. */
const search_s = 10;

function clamp(u: number, most: number): number {
  return u > most ? most : u < -most ? -most : u;
}

function path_V(k: number, { values, droop_ohm, rated_A }: ShareSetup): number {
  return (droop_ohm[k]! + values.path_resistance_ohm) * rated_A[k]!;
}

/** Errors over rated at which a correction begins and ends; the scenario's dead band is the least. */
function bands(k: number, setup: ShareSetup): { readonly begin: number; readonly end: number } {
  const step = setup.values.trim_quantum_V / path_V(k, setup);
  const { dead_band_ratio } = setup.values;
  return { begin: Math.max(begin * step, dead_band_ratio), end: Math.max(end * step, dead_band_ratio) };
}

export const controller: ShareController = {
  memory: ({ shelves }) => [
    ...shelves.map((name) => `${name} trim`),
    ...shelves.map((name) => `${name} correcting`),
  ],

  run({ current_ratio, online }, memory, setup) {
    const { period_s, time_constant_s, leak_time_s, trim_limit_V, trim_quantum_V } = setup.values;
    const n = setup.shelves.length;
    const trim_V = memory.subarray(0, n);
    const correcting = memory.subarray(n);
    let y = 0;
    let u = 0;
    let count = 0;
    for (let k = 0; k < n; k++) {
      if (!online[k]) continue;
      y += current_ratio[k]!;
      u += trim_V[k]!;
      count++;
    }
    if (count === 0) return trim_V;
    y /= count;
    u /= count;
    for (let k = 0; k < n; k++) {
      if (!online[k]) continue;
      const error = y - current_ratio[k]!;
      const band = bands(k, setup);
      if (Math.abs(error) > band.begin) correcting[k] = 1;
      else if (Math.abs(error) <= band.end) correcting[k] = 0;
      const isActing = correcting[k] === 1 || trim_quantum_V === 0;
      if (isActing) {
        const moved = trim_V[k]! + (path_V(k, setup) / time_constant_s) * period_s * error;
        trim_V[k] = clamp(moved - (period_s / leak_time_s) * u, trim_limit_V);
      } else {
        trim_V[k] = Math.round(trim_V[k]! / trim_quantum_V) * trim_quantum_V;
      }
    }
    return trim_V;
  },

  // The start only: near enough to the middle of the band.
  rest(k, current_ratio, mean_ratio, setup) {
    const { time_constant_s, trim_limit_V } = setup.values;
    const error = mean_ratio - current_ratio;
    const size = Math.max(0, Math.abs(error) - 0.5 * bands(k, setup).end);
    return clamp((Math.sign(error) * size * search_s * path_V(k, setup)) / time_constant_s, trim_limit_V);
  },

  restingMemory: ({ trim_V }, { shelves }) => [...trim_V, ...shelves.map(() => 0)],
};
