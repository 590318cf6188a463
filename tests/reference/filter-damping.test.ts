/**
 * Optimum damping of an LC filter by one resistor: highest output impedance over R_0 = √(L/C).
 * Source: R. W. Erickson, "Optimal single resistor damping of input filters", APEC 1999, table of the three
 * networks: R–C parallel to C (n = C_b/C), R–L parallel to L (n = L_b/L), R parallel to L_b, both in series with L.
 *
 * Tolerance 1 %: 2000 points over the peak and resistances of 1e-6 R_0 in place of none.
 */
import { describe, it } from 'vitest';
import { magnitude } from '../../src/linear/complex.ts';
import { Hessenberg } from '../../src/linear/hessenberg.ts';
import { linearPlant } from '../../src/linear/plant.ts';
import { type Circuit, plainCabinet } from '../linear/plain-cabinet.ts';
import { published } from './published.ts';

const L = 1e-6;
const C = 1e-2;
const R0 = Math.sqrt(L / C);
const f0 = 1 / (2 * Math.PI * Math.sqrt(L * C));
const tiny = 1e-6 * R0;

/** Highest impedance at node 1 over R_0 and where, over f_0. */
function peak(circuit: Circuit): { height: number; at: number } {
  const cabinet = plainCabinet(circuit);
  const plant = linearPlant(cabinet, [{ kind: 'current', name: 'in', node: 1 }]);
  const reading = plant.read(
    new Float64Array(cabinet.network.stateCount),
    Float64Array.from(circuit.v, (_, n) => (n === 1 ? 1 : 0)),
  );
  const h = new Hessenberg(plant.A, plant.n);
  let best = { height: 0, at: 0 };
  for (let k = 0; k <= 2000; k++) {
    const f = f0 * 10 ** (k / 1000 - 1);
    const s = { re: 0, im: 2 * Math.PI * f };
    const side = { re: h.into(plant.B[0]!.value), im: h.into(plant.B[0]!.slope.map((b) => b * s.im)) };
    h.solve(s, [side]);
    const x = { re: h.back(side.re), im: h.back(side.im) };
    let [re, im] = [reading.d[0]!, reading.e[0]! * s.im];
    reading.c.forEach((c, i) => {
      re += c * x.re[i]!;
      im += c * x.im[i]!;
    });
    const Z = magnitude({ re, im }) / R0;
    if (Z > best.height) best = { height: Z, at: f / f0 };
  }
  return best;
}

const base = {
  bars: [{ from: 0, to: 1, R: tiny, L }],
  capacitors: [
    { node: 0, C: 1e6, r: 1e-9 },
    { node: 1, C, r: tiny },
  ],
  v: [50, 50],
  nodes: 2,
};

const source = 'Erickson, APEC 1999';
const peaks = published({ what: 'optimum damping, highest impedance over R_0', source });
const places = published({ what: 'optimum damping, frequency of the peak over f_0', source });

describe('optimum damping of an LC filter', () => {
  it.each([
    [1, 1.44914, 2.44949],
    [2, 0.91287, Math.SQRT2],
    [4, 0.61237, 0.86603],
    [10, 0.38173, 0.4899],
    // 330 µH and 470 µF damped to 1 Ω: n 2.519 and 0.666 Ω over R_0 of 0.8379 Ω (Erickson and Maksimović,
    // Fundamentals of Power Electronics, input filters, from memory).
    [2.519, 0.7948, 1.1935],
  ])('by R and C across C, n = %d: R %d, peak %d, at √(2/(2 + n))', (n, R, Z) => {
    const { height, at } = peak({
      ...base,
      capacitors: [...base.capacitors, { node: 1, C: n * C, r: R * R0 }],
    });
    peaks({ which: `R and C across C, n = ${n}`, expected: Z, found: height, tolerance: 0.01 });
    places({
      which: `R and C across C, n = ${n}`,
      expected: Math.sqrt(2 / (2 + n)),
      found: at,
      tolerance: 0.02,
    });
  });

  it.each([
    [0.1, 0.38173, 0.4899],
    [0.25, 0.61237, 0.86603],
    [0.5, 0.91287, Math.SQRT2],
    [1, 1.44914, 2.44949],
  ])('by R and L across L, n = %d: R %d, peak %d', (n, R, Z) => {
    const { height } = peak({ ...base, bars: [...base.bars, { from: 0, to: 1, R: R * R0, L: n * L }] });
    peaks({ which: `R and L across L, n = ${n}`, expected: Z, found: height, tolerance: 0.01 });
  });

  it.each([
    [0.5, 0.33641, 5.47723],
    [1, 0.51235, 3.4641],
    [2, 0.70273, 2.44949],
    [4, 0.87636, 1.93649],
  ])('by R parallel to L, in series, n = %d: R %d, peak %d', (n, R, Z) => {
    const { height } = peak({
      ...base,
      nodes: 3,
      v: [50, 50, 50],
      bars: [
        { from: 0, to: 2, R: tiny, L: n * L },
        { from: 0, to: 2, R: R * R0, L: 1e-4 * L },
        { from: 2, to: 1, R: tiny, L },
      ],
    });
    peaks({ which: `R parallel to L, n = ${n}`, expected: Z, found: height, tolerance: 0.01 });
  });
});
