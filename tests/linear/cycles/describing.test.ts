/** Describing functions against the Fourier integral of what the element gives, taken numerically. */
import { describe, expect, it } from 'vitest';
import {
  deadBand,
  type Element,
  harmonic,
  saturation,
  stairs,
} from '../../../src/linear/cycles/describing.ts';

function meanOf(element: Element, A: number, B: number, points = 40000): number {
  let sum = 0;
  for (let k = 0; k < points; k++) sum += element.of(B + A * Math.sin((2 * Math.PI * (k + 0.5)) / points));
  return sum / points;
}

describe('a describing function is the Fourier integral', () => {
  it.each([
    ['of rounding, midway between codes', stairs(2), 0.7, 1],
    ['of rounding about a code: a relay with a dead band', stairs(2), 1.5, 0],
    ['of rounding, biased', stairs(2), 1.5, 0.6],
    ['of rounding over many levels', stairs(2), 13.3, 0.4],
    ['of a clamp', saturation(1.3), 4, 0],
    ['of a clamp that is not reached', saturation(1.3), 1, 0],
    ['of a subtractive dead band', deadBand(0.5), 0.8, 0],
  ] as const)('%s', (_, element, A, B) => {
    expect(element.gain(A, B) * A).toBeCloseTo(harmonic(element, 1, A, B, 40000), 3);
    expect(element.mean(A, B)).toBeCloseTo(meanOf(element, A, B), 3);
  });

  it('is the ideal relay of ±q/2 midway between codes: 2q/(πA)', () => {
    expect(stairs(3).gain(1.1, 1.5)).toBeCloseTo(6 / (Math.PI * 1.1), 12);
  });
});
