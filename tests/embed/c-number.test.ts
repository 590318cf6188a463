/** Numbers as a C compiler and its library read them: C99 (ISO/IEC 9899:1999), 6.4.4.2 and 7.20.1.3. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { constant, hexFloat } from '../../src/embed/c-number.ts';
import { laws } from '../../src/embed/made/laws.ts';
import { Random } from '../../src/loads/random.ts';
import { compile, runProgram } from './compiled.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'numbers-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const view = new DataView(new ArrayBuffer(8));
const bitsOf = (x: number): string => {
  view.setFloat64(0, x);
  return view.getBigUint64(0).toString(16).padStart(16, '0');
};

const corners = [
  0,
  -0,
  1,
  -1,
  0.1,
  -0.1,
  0.5,
  -0.5,
  1.5,
  -1.5,
  2.5,
  -2.5,
  0.49999999999999994,
  -0.49999999999999994,
  0.5000000000000001,
  4503599627370495.5,
  -4503599627370495.5,
  4503599627370496,
  4503599627370497,
  1e300,
  -1e300,
  Number.MAX_VALUE,
  Number.MIN_VALUE,
  -Number.MIN_VALUE,
  2.2250738585072014e-308,
  2.225073858507201e-308,
  1 / 3,
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
];

/** Of every size: random bits, and random numbers near whole ones. */
const drawn = (() => {
  const dice = new Random(7);
  const word = (): number => Math.floor(dice.uniform() * 2 ** 32);
  const anySize = Array.from({ length: 2000 }, () => {
    view.setUint32(0, word());
    view.setUint32(4, word());
    return view.getFloat64(0);
  });
  const nearHalves = Array.from(
    { length: 2000 },
    () => (Math.floor(dice.uniform() * 400) - 200) / 2 + (dice.uniform() - 0.5) * 1e-14,
  );
  return [...anySize.filter((x) => !Number.isNaN(x)), ...nearHalves];
})();

it('hexadecimal floating constants come back with the same bits, and round as Math.round does', () => {
  const { file, header, source } = laws.share;
  writeFileSync(join(folder, `${file}.h`), header);
  writeFileSync(join(folder, `${file}.c`), source);
  writeFileSync(
    join(folder, 'numbers.c'),
    `#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include "${file}.c"
static void show(double x) {
  uint64_t bits;
  memcpy(&bits, &x, sizeof bits);
  printf("%08lx%08lx\\n", (unsigned long)(bits >> 32), (unsigned long)(bits & 0xffffffffu));
}
int main(void) {
  char word[64];
  while (scanf("%63s", word) == 1) {
    const double x = strtod(word, NULL);
    show(x);
    show(nearestWhole(x));
  }
  return 0;
}
`,
  );
  compile(folder, 'numbers', ['numbers.c']);
  const all = [...corners, ...drawn];
  const { out } = runProgram(folder, 'numbers', all.map(hexFloat).join('\n'));
  expect(out.trim().split('\n')).toEqual(all.flatMap((x) => [bitsOf(x), bitsOf(Math.round(x))]));
});

it('a constant is exact, and says what it is', () => {
  expect([0, 600, -0, 0.1, -1e-3, Number.POSITIVE_INFINITY].map(constant)).toEqual([
    '0.0',
    '600.0',
    '-0x0p+0 /* 0 */',
    '0x1.999999999999ap-4 /* 0.1 */',
    '-0x1.0624dd2f1a9fcp-10 /* -0.001 */',
    'INFINITY',
  ]);
  expect(() => constant(Number.NaN)).toThrow(RangeError);
});
