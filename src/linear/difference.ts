/** Central differences over one variable. */

/** Step of a difference over the size of its variable. */
const differenceStep = 1e-5;

/** Step of the difference over a variable of this size. */
export function stepAt(value: number, size: number): number {
  return differenceStep * Math.max(Math.abs(value), size);
}

/** Slope of `evaluate`'s outcome over one variable, by a central difference. */
export function slopeOf(
  value: Float64Array,
  place: number,
  size: number,
  evaluate: (out: Float64Array) => void,
  out: Float64Array,
  scratch: Float64Array,
): void {
  const at = value[place]!;
  const d = stepAt(at, size);
  const above = at + d;
  const below = at - d;
  value[place] = above;
  evaluate(out);
  value[place] = below;
  evaluate(scratch);
  value[place] = at;
  for (let k = 0; k < out.length; k++)
    out[k] = out[k] === scratch[k] ? 0 : (out[k]! - scratch[k]!) / (above - below);
}
