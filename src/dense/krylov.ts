/** Text of the compiled form (`kernel.ts`); as it stands, the plain one. */
import type { Int } from '../base/int.ts';

/**
 * Takes out of w (size) what it has of `count` vectors, which stand one after the other in `basis`, and adds that to
 * `parts`. Four vectors at once, which are square to each other.
 */
export function takeOut(
  basis: Float64Array,
  count: Int,
  size: Int,
  w: Float64Array,
  parts: Float64Array,
): void {
  const whole: Int = count - (count % 4);
  for (let k = 0; k < whole; k += 4) {
    const a: Int = k * size;
    const b: Int = a + size;
    const c: Int = b + size;
    const d: Int = c + size;
    let sa = 0;
    let sb = 0;
    let sc = 0;
    let sd = 0;
    for (let i = 0; i < size; i++) {
      const x = w[i]!;
      sa += basis[a + i]! * x;
      sb += basis[b + i]! * x;
      sc += basis[c + i]! * x;
      sd += basis[d + i]! * x;
    }
    for (let i = 0; i < size; i++)
      w[i]! -= sa * basis[a + i]! + sb * basis[b + i]! + sc * basis[c + i]! + sd * basis[d + i]!;
    parts[k]! += sa;
    parts[k + 1]! += sb;
    parts[k + 2]! += sc;
    parts[k + 3]! += sd;
  }
  for (let k = whole; k < count; k++) {
    const at: Int = k * size;
    let s = 0;
    for (let i = 0; i < size; i++) s += basis[at + i]! * w[i]!;
    for (let i = 0; i < size; i++) w[i]! -= s * basis[at + i]!;
    parts[k]! += s;
  }
}
