/**
 * Sine and cosine with the same bits everywhere. Math.sin and Math.cos may differ in the last bit from one engine to
 * the next, and they do between Node 20 and today's Chromium; + − × do not. What enters a run takes these.
 *
 * x is brought into ±π/4 by whole quarter turns (π/2 in two parts, Cody and Waite), then the Taylor series to where
 * its next term is below rounding. Error at most 2e-16 for |x| up to 1e4. x in radians.
 */

/** π/2: its first 33 bits, exact times whole numbers up to 2^20, and the rest. */
const quarter = 1.5707963267341256;
const rest = 6.077100506506192e-11;

/** 2π. */
const turn = 6.283185307179586;

/** sin r for |r| ≤ π/4. */
function small(r: number): number {
  const s = r * r;
  let sum = 0;
  for (let n = 17; n >= 3; n -= 2) sum = (-s * (1 + sum)) / (n * (n - 1));
  return r + r * sum;
}

/** cos r for |r| ≤ π/4. */
function smallCosine(r: number): number {
  const s = r * r;
  let sum = 0;
  for (let n = 18; n >= 2; n -= 2) sum = (-s * (1 + sum)) / (n * (n - 1));
  return 1 + sum;
}

function turned(x: number, quarters: number): number {
  const k = Math.floor(x / (quarter + rest) + 0.5);
  const r = x - k * quarter - k * rest;
  const side = k + quarters - 4 * Math.floor((k + quarters) / 4);
  const value = side === 0 || side === 2 ? small(r) : smallCosine(r);
  return side < 2 ? value : -value;
}

export function sine(x: number): number {
  return turned(x, 0);
}

export function cosine(x: number): number {
  return turned(x, 1);
}

export function tangent(x: number): number {
  return sine(x) / cosine(x);
}

/** cos 2πt of any number of turns: whole ones are taken off first, which costs no bit. */
export function cosineOfTurns(turns: number): number {
  return cosine(turn * (turns - Math.floor(turns)));
}
