/**
 * Stretches of a plant multiplied out, in trapezoidal steps of the finest rung. The steps are the engine's own:
 * ξ1 = (I − qA)⁻¹((I + qA) ξ0 + 2 q B u).
 */
import { multiply, solveInPlace } from '../dense/dense.ts';

/** Plant and commands over a stretch: [plant | commands] after it over those before it, square. Commands are held. */
export interface HeldStretch {
  readonly ticks: number;
  readonly map: Float64Array;
  /** States of the plant, and commands beside them. */
  readonly n: number;
  readonly commands: number;
}

/** Most pieces in which a stretch is carried. */
const mostPieces = 32;

/** One trapezoidal step of `h` seconds, as the map of a stretch. */
export function stepMap(A: Float64Array, B: readonly Float64Array[], n: number, h: number): Float64Array {
  const q = h / 2;
  const lhs = new Float64Array(n * n);
  const wide = n + B.length;
  const map = new Float64Array(wide * wide);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const a = q * A[i * n + j]!;
      lhs[i * n + j] = -a;
      map[i * wide + j] = a;
    }
    lhs[i * n + i]! += 1;
    map[i * wide + i]! += 1;
    for (let j = n; j < wide; j++) map[i * wide + j] = 2 * q * B[j - n]![i]!;
  }
  solveInPlace(lhs, map, n, wide);
  for (let i = n; i < wide; i++) map[i * wide + i] = 1;
  return map;
}

/** first, then second. */
function joined(second: Float64Array, first: Float64Array, size: number): Float64Array {
  const map = new Float64Array(size * size);
  multiply(map, second, first, size, size, size);
  return map;
}

/** Stretches of a plant by their length; powers of the step are shared. */
export class Stretches {
  private readonly powers: Float64Array[] = [];
  private readonly made = new Map<number, HeldStretch>();
  private readonly A: Float64Array;
  private readonly B: readonly Float64Array[];
  private readonly n: number;
  private readonly tick_s: number;
  private readonly rung: number;
  private readonly long: 'multiplied' | 'in-pieces';

  /** `long`: stretches that hold a shorter one some times are multiplied out, or carried in its pieces. */
  constructor(
    A: Float64Array,
    B: readonly Float64Array[],
    n: number,
    tick_s: number,
    rungTicks: number,
    long: 'multiplied' | 'in-pieces' = 'multiplied',
  ) {
    this.long = long;
    this.A = A;
    this.B = B;
    this.n = n;
    this.tick_s = tick_s;
    this.rung = rungTicks;
  }

  private power(k: number): Float64Array {
    const { n, B, powers } = this;
    powers[0] ??= stepMap(this.A, B, n, this.rung * this.tick_s);
    for (let p = powers.length; p <= k; p++) powers[p] = joined(powers[p - 1]!, powers[p - 1]!, n + B.length);
    return powers[k]!;
  }

  /**
   * A stretch as those that carry it: itself, or, where few vectors are carried and multiplying out costs more, one that
   * was made before, up to 32 times.
   */
  pieces(ticks: number): readonly HeldStretch[] {
    if (this.long === 'multiplied') return [this.of(ticks)];
    const parts = [...this.made.keys()].filter((part) => ticks % part === 0 && ticks <= mostPieces * part);
    const part = Math.max(0, ...parts);
    return part === 0 ? [this.of(ticks)] : new Array<HeldStretch>(ticks / part).fill(this.of(part));
  }

  of(ticks: number): HeldStretch {
    const held = this.made.get(ticks);
    if (held !== undefined) return held;
    const { n, B, rung } = this;
    const steps = Math.floor(ticks / rung);
    const rest = ticks - steps * rung;
    let map: Float64Array | null = rest > 0 ? stepMap(this.A, B, n, rest * this.tick_s) : null;
    for (let k = 0; 2 ** k <= steps; k++) {
      if (Math.floor(steps / 2 ** k) % 2 === 0) continue;
      const power = this.power(k);
      map = map === null ? power : joined(power, map, n + B.length);
    }
    const stretch = { ticks, map: map!, n, commands: B.length };
    this.made.set(ticks, stretch);
    return stretch;
  }
}
