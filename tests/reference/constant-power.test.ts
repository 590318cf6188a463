/**
 * Stability boundary of a constant power behind R, L and C. Characteristic s² + (R/L − P/(C v²)) s + (1 − R
 * P/v²)/(L C): stable below P = R C v*²/L with v* = E/(1 + R² C/L), there at f = √((1 − R P/v*²)/(L C))/2π.
 * Source: R. D. Middlebrook, IEEE Industry Applications Society Annual Meeting, 1976; A. Emadi et al., IEEE
 * Trans. Vehicular Technology 55(4), 2006; the numbers follow from the characteristic by hand.
 *
 * Tolerances: the source's capacitor of 1e6 F and resistances of 1e-7 Ω shift real parts by 0.1 1/s at most.
 */
import { describe, expect, it } from 'vitest';
import { Hessenberg } from '../../src/linear/hessenberg.ts';
import { linearPlant } from '../../src/linear/plant.ts';
import { plainCabinet } from '../linear/plain-cabinet.ts';
import { published } from './published.ts';

// E [V], R [mΩ], L [µH], C [mF], v* [V], P_crit [W], f [Hz]
const rows = [
  [54, 2, 1, 10, 51.923077, 53920.118, 1559.39],
  [50, 1, 2, 20, 49.50495, 24507.401, 791.786],
  [48, 5, 5, 2, 47.524752, 4517.204, 1583.572],
  [54, 5, 5, 1, 53.731343, 2887.057, 2245.157],
  [100, 100, 1000, 1, 99.009901, 980.296, 158.357],
] as const;

function swing(E: number, R: number, L: number, C: number, P: number): { re: number; im: number } {
  const v = (E + Math.sqrt(E * E - 4 * R * P)) / 2;
  const cabinet = plainCabinet({
    nodes: 2,
    bars: [{ from: 0, to: 1, R, L }],
    capacitors: [
      { node: 0, C: 1e6, r: 1e-7 },
      { node: 1, C, r: 1e-7 },
    ],
    power: { node: 1, P },
    v: [E, v],
  });
  const plant = linearPlant(cabinet, []);
  const values = new Hessenberg(plant.A, plant.n).eigenvalues();
  return values.filter(({ im }) => im > 0).sort((a, b) => b.re - a.re)[0]!;
}

const source = 'Middlebrook 1976; Emadi et al. 2006';
const boundary = published({
  what: 'frequency at the stability boundary of constant power',
  source,
  unit: 'Hz',
});
const damping = published({
  what: 'real part there, over the angular frequency',
  source,
});
const parts = published({ what: 'eigenvalue 5 % beside the boundary', source, unit: '1/s', absolute: true });

describe('the boundary of a constant power behind R, L and C', () => {
  it.each(rows)(
    'E %d V, %d mΩ, %d µH, %d mF: decays below, grows above, swings as it should',
    (E, R, L, C, _v, P, f) => {
      const at = (factor: number) => swing(E, R * 1e-3, L * 1e-6, C * 1e-3, factor * P);
      expect(at(0.95).re).toBeLessThan(0);
      expect(at(1.05).re).toBeGreaterThan(0);
      const which = `${E} V, ${R} mΩ, ${L} µH, ${C} mF`;
      damping({ which, expected: 0, found: at(1).re / (2 * Math.PI * f), tolerance: 1e-4, scale: 1 });
      boundary({ which, expected: f, found: at(1).im / (2 * Math.PI), tolerance: 1e-4 });
    },
  );

  it('has the real parts of the first row by hand: −53.937 and +54.398 1/s at 0.95 and 1.05 of the boundary', () => {
    const [E, R, L, C, , P] = rows[0];
    const at = (factor: number) => swing(E, R * 1e-3, L * 1e-6, C * 1e-3, factor * P);
    parts({ which: 'real, at 0.95', expected: -53.937, found: at(0.95).re, tolerance: 0.2 });
    parts({ which: 'real, at 1.05', expected: 54.398, found: at(1.05).re, tolerance: 0.2 });
    parts({ which: 'imaginary, at 0.95', expected: 9808.8, found: at(0.95).im, tolerance: 0.5 });
    parts({ which: 'imaginary, at 1.05', expected: 9786.7, found: at(1.05).im, tolerance: 0.5 });
  });
});
