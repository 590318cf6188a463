/**
 * How long each sled waits for its restart once the bus is back: t_rs, then its place in the row times the
 * stagger, then a part of the scatter drawn by the scenario's seed, so that not all come at once.
 *
 *   wait_k = t_rs + k · stagger + u_k · scatter,   u_k uniform in [0, 1)
 * The wait counts from when the sled's own input is above its restart voltage; a dip below it begins it anew.
 */
import { Random } from '../../loads/random.ts';
import type { Scenario } from '../../scenario/scenario.ts';

/** The offset of these draws from other draws of the same seed. */
const scatterSeed = 0x5a7e;

/** Wait of each sled [ticks]. */
export function restartDelays({ sleds, seed, tick_s }: Scenario): Float64Array {
  const random = new Random(seed + scatterSeed);
  return Float64Array.from(sleds, ({ values }, k) => {
    const drawn = random.uniform() * values.restart_scatter_s;
    return Math.round((values.restart_time_s + k * values.restart_stagger_s + drawn) / tick_s);
  });
}
