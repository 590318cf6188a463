/**
 * How what the trays remember comes back to rest, to first order and away from every clamp: for who looks ahead over
 * many seconds. With e = E − E*(w), the charge beyond its schedule, a lossless group has
 *   w' = −r w                          load-following r = 1/τ_s, source-high-pass r = k/((1 + k) τ_s)
 *   e' = −e/τ_soc + z                  z' = −e/(T_i τ_soc)
 * of deviations w, e and z, whatever the load does: the smoothing moves E as it moves E*. Losses, balancing between
 * trays and clamps are left out. Equations: charge-keeper.ts, reference.ts.
 */
import { inverse, Matrix } from 'ml-matrix';
import type { SmoothingValues } from '../../scenario/parameters/smoothing.ts';

/** Steps into which a time is cut, a power of two: the error is that time over its constants, squared, over this. */
const steps = 2 ** 20;

export interface Recovery {
  /** The whole deviation of w over what of it goes within the time. */
  readonly smoothed: number;
  /** The same of charge beyond schedule [J] and z [W]. */
  charge(e_J: number, z_W: number): { readonly e_J: number; readonly z_W: number };
}

/** Over `time_s`. */
export function recoveryOver(values: SmoothingValues, time_s: number): Recovery {
  const { charge_time_s, charge_integral_time_s } = values;
  const charge = wholeOverGone(
    [
      [-1 / charge_time_s, 1],
      [-1 / (charge_time_s * charge_integral_time_s), 0],
    ],
    time_s,
  );
  const rate = followed_per_s(values);
  return {
    smoothed: rate === null ? 1 : wholeOverGone([[-rate]], time_s).get(0, 0),
    charge(e_J, z_W) {
      const [e, z] = charge.mmul(Matrix.columnVector([e_J, z_W])).to1DArray();
      return { e_J: e!, z_W: z! };
    },
  };
}

/** (I − exp(slopes time))⁻¹, of sums and products alone: the same bits everywhere. */
function wholeOverGone(slopes: readonly (readonly number[])[], time_s: number): Matrix {
  const over = new Matrix(slopes.map((row) => row.map((slope) => slope * time_s)));
  const still = Matrix.eye(over.rows);
  const left = Matrix.add(still, over.div(steps)).mpow(steps);
  return inverse(still.sub(left));
}

/** How fast w goes to where it rests [1/s]; null for a ramp, which has no such rate. */
function followed_per_s({
  reference,
  time_constant_s,
  feedback_gain_ratio: k,
}: SmoothingValues): number | null {
  if (reference === 'source-ramp') return null;
  return reference === 'source-high-pass' ? k / ((1 + k) * time_constant_s) : 1 / time_constant_s;
}
