/**
 * Geometric mean distances between the points of rectangles, exact. The mean of ln r over two rectangles with sides along
 * x and y is a sum of 16 terms, the fourth integral F of ln r at the corners' differences, over both areas:
 *
 *   F(x, y) = (6 x²y² − x⁴ − y⁴)/48 ln(x² + y²) + x y/6 (x² arctan(y/x) + y² arctan(x/y)) − 25/48 x²y²,  ∂⁴F/∂x²∂y² = ln r
 *
 * J. C. Maxwell, A Treatise on Electricity and Magnetism, art. 692, and F. W. Grover, Inductance Calculations, 1946, chapter 3.
 */
import { arcTangent } from '../base/arc-tangent.ts';
import { exponential } from '../base/exponential.ts';
import { logarithm } from '../base/logarithm.ts';

/** Sides along x and y [m]. */
export interface Rectangle {
  readonly x_m: number;
  readonly y_m: number;
}

/** Of a rectangle from one like it whose middle lies `dx_m` and `dy_m` away; from itself where both are 0 [m]. */
export function meanDistance_m({ x_m, y_m }: Rectangle, dx_m: number, dy_m: number): number {
  // In units of the rectangle's sides together: the terms then neither vanish nor grow beside each other.
  const unit_m = x_m + y_m;
  const [a, b, p, q] = [x_m, y_m, dx_m, dy_m].map((length) => length / unit_m) as [
    number,
    number,
    number,
    number,
  ];
  let sum = 0;
  for (const [x, ofX] of differences(a, p))
    for (const [y, ofY] of differences(b, q)) sum += ofX * ofY * integral(x, y);
  return unit_m * exponential(sum / (a * b * a * b));
}

/** Corners' differences along one side with their signs; the two that are alike are one, twice. */
function differences(side: number, offset: number): readonly (readonly [number, number])[] {
  return [
    [offset + side, 1],
    [offset, -2],
    [offset - side, 1],
  ];
}

/** Even in both, so that lengths may be negative. */
function integral(x: number, y: number): number {
  const [u, v] = [Math.abs(x), Math.abs(y)];
  const [uu, vv] = [u * u, v * v];
  if (uu + vv === 0) return 0;
  const logs = ((6 * uu * vv - uu * uu - vv * vv) / 48) * logarithm(uu + vv);
  const angles = ((u * v) / 6) * (uu * arcTangent(v, u) + vv * arcTangent(u, v));
  return logs + angles - (25 / 48) * uu * vv;
}
