/**
 * Carries a slow state over a stretch. One step of h from x:
 *
 *   x' = x + h φ(h s) r,  φ(z) = (e^z − 1)/z,  r the rate and s its slope at x
 *
 * exact where the law is linear, of second order elsewhere (exponential Rosenbrock–Euler: M. Hochbruck, A. Ostermann,
 * Exponential integrators, Acta Numerica 19, 2010, section 2.4). Where the law bends, each step is taken whole and in halves;
 * a third of their difference is the halves' error to second order, and steps are halved until it is within the step's part of the
 * bound. Laws that come to rest forget errors, so that the bound on one stretch is a bound on all.
 */
import { exponential } from '../base/exponential.ts';
import type { SlowLaw } from './slow-law.ts';

/** Steps are not halved further than this part of a stretch. */
const least_ratio = 2 ** -30;

/**
 * The state after `length_s` from `from`, its error at most `bound` (of the state's unit). Infinite where a state that runs
 * away leaves all numbers.
 */
export function march(
  law: SlowLaw & { readonly atOnce?: number },
  from: number,
  length_s: number,
  bound: number,
): number {
  if (law.atOnce !== undefined) return law.atOnce;
  let x = from;
  let done_s = 0;
  let step_s = length_s;
  while (done_s < length_s) {
    const h = Math.min(step_s, length_s - done_s);
    const whole = stepped(law, x, h);
    const halves = stepped(law, stepped(law, x, h / 2), h / 2);
    if (!Number.isFinite(halves)) return halves;
    const error = Math.abs(halves - whole) / 3;
    const isWithin = error <= (bound * h) / length_s;
    if (!isWithin && h > least_ratio * length_s) {
      step_s = h / 2;
      continue;
    }
    x = halves;
    done_s += h;
    step_s = 2 * h;
  }
  return x;
}

function stepped(law: SlowLaw, x: number, h: number): number {
  return x + h * phi(h * law.slope(x)) * law.rate(x);
}

/** (e^z − 1)/z; by its series where the difference would lose digits. */
function phi(z: number): number {
  if (Math.abs(z) < 1e-3) return 1 + (z / 2) * (1 + (z / 3) * (1 + z / 4));
  return (exponential(z) - 1) / z;
}
