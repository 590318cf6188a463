/**
 * D A D⁻¹ with the real diagonal D that gives row and column of every element the same size.
 * Source: E. E. Osborne, Journal of the ACM 7(4), 1960 (pre-conditioning of matrices).
 */
import { type Complex, scaled } from './complex.ts';
import type { ComplexMatrix } from './complex-matrix.ts';

const sweeps = 6;

export function balanced(A: ComplexMatrix): Complex[][] {
  const out = A.map((row) => [...row]);
  for (let sweep = 0; sweep < sweeps; sweep++) {
    out.forEach((row, i) => {
      let [across, down] = [0, 0];
      out.forEach((other, j) => {
        if (j === i) return;
        across += square(row[j]!);
        down += square(other[i]!);
      });
      if (across === 0 || down === 0) return;
      // Fourth root: the sums are squares, and the weight is shared by row and column.
      const weight = Math.sqrt(Math.sqrt(down / across));
      out.forEach((other, j) => {
        if (j === i) return;
        row[j] = scaled(row[j]!, weight);
        other[i] = scaled(other[i]!, 1 / weight);
      });
    });
  }
  return out;
}

function square({ re, im }: Complex): number {
  return re * re + im * im;
}
