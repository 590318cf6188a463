/** The steps between formats, in C, against the same in whole numbers of any size (BigInt): to the last bit. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { fixedPointFile, fixedPointText } from '../../src/embed/fixed/fixed-point-text.ts';
import { compile, runProgram } from './compiled.ts';

const program = `#include <stdio.h>
#include "${fixedPointFile}"
int main(void) {
  int a, a_n, b, b_n, n;
  while (scanf("%d %d %d %d %d", &a, &a_n, &b, &b_n, &n) == 5) {
    printf("%d %d %d %d %d %d\\n", moved(a, a_n, n), sumOf(a, a_n, b, b_n, n), differenceOf(a, a_n, b, b_n, n),
           productOf(a, a_n, b, b_n, n), quotientOf(a, a_n, b, b_n, n), orderOf(a, a_n, b, b_n));
  }
  return 0;
}
`;

const end = 2n ** 31n - 1n;

/** top/bottom as a word, halves away from 0. */
function rounded(top: bigint, bottom: bigint): bigint {
  const negative = top < 0n !== bottom < 0n;
  const [size, by] = [top < 0n ? -top : top, bottom < 0n ? -bottom : bottom];
  const whole = (2n * size + by) / (2n * by);
  const held = whole > end ? end : whole;
  return negative ? -held : held;
}

it('steps round to nearest and saturate', () => {
  const folder = mkdtempSync(join(tmpdir(), 'fixed-point-'));
  try {
    writeFileSync(join(folder, fixedPointFile), fixedPointText);
    writeFileSync(join(folder, 'steps.c'), program);
    compile(folder, 'steps', ['steps.c']);
    const word = fc.oneof(
      fc.integer({ min: -(2 ** 31) + 1, max: 2 ** 31 - 1 }),
      fc.integer({ min: -9, max: 9 }),
    );
    // Formats within a word's length of each other, where each step is rounded once.
    const fraction = fc.integer({ min: 8, max: 31 });
    const rows = fc.sample(fc.tuple(word, fraction, word, fraction, fraction), { numRuns: 3000, seed: 1 });
    const { out } = runProgram(folder, 'steps', rows.map((row) => row.join(' ')).join('\n'));
    const one = (n: number): bigint => 2n ** BigInt(n);
    const expected = rows.map(([wa, an, wb, bn, n]) => {
      const [a, b] = [BigInt(wa), BigInt(wb)];
      const [left, right] = [a * one(bn), b * one(an)];
      const common = one(an + bn);
      const up = n + bn - an;
      // A dividend is moved up by 31 bits at most; below that the quotient is rounded twice.
      const isOnce = up >= 0 && up <= 31;
      const quotient =
        b === 0n ? (a === 0n ? 0n : a > 0n ? end : -end) : rounded(a * one(bn) * one(n), b * one(an));
      return [
        rounded(a * one(n), one(an)),
        rounded((left + right) * one(n), common),
        rounded((left - right) * one(n), common),
        rounded(a * b * one(n), common),
        isOnce || b === 0n ? quotient : null,
        left > right ? 1n : left < right ? -1n : 0n,
      ];
    });
    const got = out
      .trim()
      .split('\n')
      .map((line) => line.split(' '));
    const said = (all: readonly (readonly unknown[])[]): string[] =>
      all.map((row, k) =>
        [rows[k], ...row.map((x, j) => (expected[k]![j] === null ? 'twice' : String(x)))].join(' '),
      );
    expect(said(got)).toEqual(said(expected));
  } finally {
    rmSync(folder, { recursive: true });
  }
});
