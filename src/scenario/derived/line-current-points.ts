/**
 * What a shelf's model says of its line current at a tenth, a fifth, half and the whole of rated power; what it leaves out is as
 * at the next load above. With a THD of the current the power factor is that of the fundamental over √(1 + THD²)
 * (IEC 61000-3-2, definitions, from memory; textbook).
 */
import type { ShelfValues } from '../parameters/shelf.ts';
import { reactivePerActive } from './supply-impedance.ts';

type Points = readonly [tenth: number, fifth: number, half: number, full: number];

function points(tenth: number, fifth: number, half: number, full: number): Points {
  const atHalf = half > 0 ? half : full;
  const atFifth = fifth > 0 ? fifth : atHalf;
  return [tenth > 0 ? tenth : atFifth, atFifth, atHalf, full];
}

export function powerFactors(s: ShelfValues): Points {
  return points(
    s.power_factor_tenth_ratio,
    s.power_factor_fifth_ratio,
    s.power_factor_half_ratio,
    s.power_factor_ratio,
  );
}

export function distortions(s: ShelfValues): Points {
  return points(
    s.current_distortion_tenth_ratio,
    s.current_distortion_fifth_ratio,
    s.current_distortion_half_ratio,
    s.current_distortion_ratio,
  );
}

/** cos φ of the fundamental; no more than 1 where the table is one that can be. */
export function displacement(power_factor: number, distortion: number): number {
  return power_factor * Math.sqrt(1 + distortion * distortion);
}

/** tan φ of the fundamental. */
export function tangents(s: ShelfValues): Points {
  const factors = powerFactors(s);
  const [tenth, fifth, half, full] = distortions(s);
  const at = (k: 0 | 1 | 2 | 3, distortion: number): number =>
    reactivePerActive(Math.min(1, displacement(factors[k], distortion)));
  return [at(0, tenth), at(1, fifth), at(2, half), at(3, full)];
}
