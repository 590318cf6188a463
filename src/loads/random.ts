/**
 * Seeded random numbers, the same bits on every machine: only whole-number operations and + − ×.
 * Generator: xorshift with 128 bits of state and shifts 11, 8, 19, period 2^128 − 1 (G. Marsaglia, "Xorshift
 * RNGs", Journal of Statistical Software 8(14), 2003). The seed is spread over the state by the finaliser of
 * a 32-bit hash (multiply and shift), so that neighbouring seeds give unlike sequences.
 */
export class Random {
  private x: number;
  private y: number;
  private z: number;
  private w: number;

  /** `seed`: any finite number; it counts by its low 32 bits and the next 21, as a whole number. */
  constructor(seed: number) {
    const low = seed >>> 0;
    const high = Math.floor(Math.abs(seed) / 4294967296) >>> 0;
    this.x = scramble(low);
    this.y = scramble(low + 0x9e3779b9);
    this.z = scramble(high ^ 0x85ebca6b);
    // An all-zero state would stay zero: bit 0 of one word is set for good.
    this.w = scramble(low ^ high ^ 0xc2b2ae35) | 1;
    for (let i = 0; i < 16; i++) this.next();
  }

  /** Whole number from 0 to 2^32 − 1. */
  next(): number {
    const t = this.x ^ (this.x << 11);
    this.x = this.y;
    this.y = this.z;
    this.z = this.w;
    this.w = this.w ^ (this.w >>> 19) ^ t ^ (t >>> 8);
    return this.w >>> 0;
  }

  /** Uniform in [0, 1), in steps of 2^-32. */
  uniform(): number {
    return this.next() / 4294967296;
  }

  /**
   * Gaussian with mean 0 and standard deviation 1. Twelve uniforms are summed and the sum is bent by
   * Teichroew's polynomial, which needs no logarithm (D. E. Knuth, The Art of Computer Programming, vol. 2,
   * section 3.4.1, the exercise on Teichroew's method). Good to 2e-4 within two standard deviations; never beyond 9.
   */
  gaussian(): number {
    let sum = -6;
    for (let i = 0; i < 12; i++) sum += this.uniform();
    const r = sum / 4;
    const q = r * r;
    return ((((0.029899776 * q + 0.008355968) * q + 0.076542912) * q + 0.252408784) * q + 3.949846138) * r;
  }
}

function scramble(word: number): number {
  let h = word | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}
