/**
 * The voltage of a line under a load of constant power, behind an open-circuit voltage E and an impedance Z = R + jX (all
 * line to line, RMS, in balance), and the most that it carries:
 *
 *   V⁴ + (2 (R P + X Q) − E²) V² + |Z|² (P² + Q²) = 0
 *   V² = h + √((h − |Z| S) (h + |Z| S))      h = E²/2 − (R P + X Q)      S² = P² + Q²
 *   P_most = E²/(2 (R + X t + |Z| √(1 + t²)))      t = Q/P: where both roots meet, at power factor 1 E²/(2 |Z| (1 + cos θ))
 *
 * The upper root is the one that a line has which is loaded from nothing. Source: maximum power transfer at a fixed power
 * factor of the load; P. Kundur, Power System Stability and Control, chapter 14 (from memory).
 */

/** h [V²]; both roots V² are real while it is at least |Z| S. */
export function middleOfRoots(E: number, R: number, X: number, P: number, Q: number): number {
  return 0.5 * E * E - (R * P + X * Q);
}

/** V [V] from h and |Z| S [V²]. Beyond the largest power no root is left: then the voltage at which both met, √h. */
export function upperRoot(h: number, ZS: number): number {
  const apart = (h - ZS) * (h + ZS);
  const square = apart > 0 ? h + Math.sqrt(apart) : h;
  return square > 0 ? Math.sqrt(square) : 0;
}

/** P_most [W] at Q/P = t. */
export function largestPower(E: number, R: number, X: number, t: number): number {
  return (E * E) / (2 * (R + X * t + Math.sqrt((R * R + X * X) * (1 + t * t))));
}
