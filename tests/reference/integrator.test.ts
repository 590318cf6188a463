/**
 * The independent integrator that the engine is held against (npm package odex, explicit extrapolation) on
 * published problems, at the tolerances it is used with.
 *
 * Sources: HIRES, test set for initial value problem solvers (Bari, CWI): reference solution at t = 321.8122;
 * E. Hairer, G. Wanner, Solving Ordinary Differential Equations II. Van der Pol x'' = μ(1 − x²) x' − x: period of the
 * limit cycle, computed with another solver to 1e-8. Tolerance 1e-6: the solver's own is 1e-9 a step.
 */
import { createRequire } from 'node:module';
import { describe, it } from 'vitest';
import { published } from './published.ts';

type Right = (t: number, y: number[]) => number[];
const { Solver } = createRequire(import.meta.url)('odex') as {
  readonly Solver: new (
    n: number,
  ) => {
    absoluteTolerance: number;
    relativeTolerance: number;
    maxSteps: number;
    solve(f: Right, t0: number, y0: number[], t1: number): { readonly y: number[] };
  };
};

const hires = published({
  what: "the tests' independent integrator, HIRES at its end",
  source: 'test set for initial value problem solvers (Bari, CWI)',
});
const periods = published({
  what: "the tests' independent integrator, period of van der Pol",
  source: 'limit cycle, other solver to 1e-8',
});

function reach(f: Right, y0: number[], t1: number): number[] {
  const solver = new Solver(y0.length);
  solver.absoluteTolerance = 1e-12;
  solver.relativeTolerance = 1e-9;
  solver.maxSteps = 1_000_000;
  return solver.solve(f, 0, y0, t1).y;
}

describe('the independent integrator', () => {
  it('solves HIRES', () => {
    const f: Right = (_t, y) => {
      const [a, b, c, d, e, g, h, k] = y as [number, number, number, number, number, number, number, number];
      const last = 280 * g * k - 1.81 * h;
      return [
        -1.71 * a + 0.43 * b + 8.32 * c + 0.0007,
        1.71 * a - 8.75 * b,
        -10.03 * c + 0.43 * d + 0.035 * e,
        8.32 * b + 1.71 * c - 1.12 * d,
        -1.745 * e + 0.43 * g + 0.43 * h,
        -280 * g * k + 0.69 * d + 1.71 * e - 0.43 * g + 0.69 * h,
        last,
        -last,
      ];
    };
    const expected = [
      0.7371312573325668e-3, 0.1442485726316185e-3, 0.5888729740967575e-4, 0.1175651343283149e-2,
      0.2386356198831331e-2, 0.6238968252742796e-2, 0.2849998395185769e-2, 0.2850001604814231e-2,
    ];
    const y = reach(f, [1, 0, 0, 0, 0, 0, 0, 0.0057], 321.8122);
    expected.forEach((value, k) => {
      hires({ which: `y${k + 1}`, expected: value, found: y[k]!, tolerance: 1e-6 });
    });
  });

  it.each([
    [0.5, 6.3806758],
    [1, 6.66328686],
    [2, 7.62987448],
    [5, 11.61223067],
  ])('runs round the limit cycle of van der Pol, μ = %d, in its period', (mu, period) => {
    const f: Right = (_t, [x, v]) => [v!, mu * (1 - x! * x!) * v! - x!];
    // On to the cycle, then from one upward passage of zero to the next, by Newton on the last stretch.
    let y = reach(f, [2, 0], 40 * period);
    const toZero = (from: readonly number[], guess: number): { t: number; y: number[] } => {
      let t = guess;
      let at = reach(f, [...from], t);
      for (let k = 0; k < 6; k++) {
        t -= at[0]! / at[1]!;
        at = reach(f, [...from], t);
      }
      return { t, y: at };
    };
    for (let k = 0; k < 400 && !(y[0]! < 0 && y[1]! > 0 && -y[0]! < 0.2 * y[1]!); k++) {
      y = reach(f, y, period / 200);
    }
    const start = toZero(y, 0.01).y;
    const found = toZero(start, period).t;
    periods({ which: `μ = ${mu}`, expected: period, found, tolerance: 1e-6 });
  });
});
