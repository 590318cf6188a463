import { expect, it } from 'vitest';
import { bases, type Dimension, prefixes, readQuantity, suffixOf, whole } from '../../src/base/quantity.ts';
import { quantityPattern } from '../../src/base/quantity-pattern.ts';

const dimensions = Object.keys(suffixOf) as Dimension[];

/** Units with every prefix, alone and over each other; and what is none. */
function units(): string[] {
  const plain = Object.keys(bases);
  const prefixed = plain.flatMap((unit) => ['', ...Object.keys(prefixes)].map((prefix) => prefix + unit));
  const over = ['A/s', 'W/s', 'A/V', 'A/V/s', 'A/s/V', 'A/(V s)', 'A/(s·V)', 'A/(V*s)', '1/W', 'K/W', 'W/J'];
  const odd = [
    'A/µs',
    'kW/ms',
    'kA / mV',
    'A/Wh',
    'A/(V  ms)',
    '1/kW',
    'K/Wh',
    '1',
    'k',
    'mm',
    'V A',
    'µ%',
    'kh',
  ];
  return [...prefixed, ...Object.keys(whole), ...over, ...odd, '\u03bcs', 'm\u2126'];
}

const numbers = [
  '5',
  '+0.20',
  '-22',
  '\u22121e3',
  '.5',
  '5.',
  '1e',
  'x',
  '',
  '0',
  '-0.0',
  '1.2.3',
  '0x10',
  '1e-3',
];

it('a text matches the pattern of a dimension exactly where the reader takes it for one', () => {
  const texts = numbers.flatMap((number) =>
    units().flatMap((unit) => [`${number} ${unit}`, `${number}${unit}`]),
  );
  let taken = 0;
  for (const dimension of dimensions) {
    const pattern = new RegExp(quantityPattern(dimension));
    for (const text of texts) {
      const reading = readQuantity(text, dimension);
      // A count is refused for its fraction as well, which is a bound and no matter of a pattern.
      const read = reading.ok || reading.found.endsWith('not a whole number');
      if (read) taken += 1;
      if (pattern.test(text) !== read) expect([dimension, text, pattern.source]).toEqual(read);
    }
  }
  expect(taken).toBeGreaterThan(1000);
});

it('a pattern may leave out what is below 0', () => {
  const [any, notNegative, above] = (['any', 'not negative', 'none below, nor 0 with a minus'] as const).map(
    (sign) => new RegExp(quantityPattern('time', sign)),
  ) as [RegExp, RegExp, RegExp];
  const matched = (pattern: RegExp): string[] =>
    ['5 ms', '-5 ms', '-0.0 s', '+1 h'].filter((text) => pattern.test(text));
  expect(matched(any)).toEqual(['5 ms', '-5 ms', '-0.0 s', '+1 h']);
  expect(matched(notNegative)).toEqual(['5 ms', '-0.0 s', '+1 h']);
  expect(matched(above)).toEqual(['5 ms', '+1 h']);
});
