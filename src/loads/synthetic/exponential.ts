import type { Random } from '../random.ts';

/**
 * Exponential with the given mean, from comparisons of uniforms alone, so that every machine gives the same bits:
 * J. von Neumann, "Various techniques used in connection with random digits", 1951 (runs of falling uniforms).
 */
export function exponential(random: Random, mean: number): number {
  for (let whole = 0; ; whole++) {
    const first = random.uniform();
    let last = first;
    let length = 1;
    for (;;) {
      const next = random.uniform();
      if (next >= last) break;
      last = next;
      length++;
    }
    if (length % 2 === 1) return mean * (whole + first);
  }
}
