/** A cabinet whose bars are given by their dimensions reads as one whose values are stated, and says what it lacks. */
import { describe, expect, test } from 'vitest';
import { loopInductance_H } from '../../../src/copper/inductance.ts';
import { flatBarRating_A } from '../../../src/copper/rating.ts';
import { messageOf, readShipped, type Swap } from '../shipped.ts';

const file = 'scenarios/pulse-train.yaml';
const byDimensions: Swap = ['models/reference-cabinet.yaml', 'bars-copper.yaml', 'bars-by-dimensions.yaml'];
const read = (...changes: readonly (readonly [path: string, value: string])[]) =>
  readShipped(file, [byDimensions], { changes: changes.map(([path, value]) => ({ path, value })) }).scenario
    .bars;

describe('bars by their dimensions', () => {
  test('have the values that follow, and keep those that are stated', () => {
    const { links, rackSegment, contact } = read();
    const link = links[0]!;
    // ρ (1/58 Ω mm²/m, 0.00393 per kelvin) of two poles of 0.5 m and 1000 mm² at 65 °C, four joints of 5 µΩ.
    expect(1e6 * link.resistance_ohm).toBeCloseTo((1 / 58) * 1.17685 * 1000 + 20, 6);
    expect(1e9 * link.inductance_H).toBeCloseTo(0.5 * 161.47, 1);
    expect(link.rated_current_A).toBe(flatBarRating_A(100, 10));
    expect(rackSegment.joint_resistance_ohm).toBe(0);
    expect([contact.resistance_ohm, contact.rated_current_A]).toEqual([400e-6, 0]);
  });

  test('change with what a study varies, in any order with values that are stated', () => {
    const [wide] = read(['bars.links.width', '120 mm']).links;
    expect(1e6 * wide!.resistance_ohm).toBeCloseTo((1 / 58) * 1.17685 * (1000 / 1.2) + 20, 6);
    const own = {
      width_m: 0.12,
      thickness_m: 0.01,
      count: 1,
      gap_m: 0.01,
      length_m: 0.5,
      temperature_degC: 65,
    };
    expect(wide!.inductance_H).toBe(loopInductance_H(own));
    for (const order of [0, 1]) {
      const changes = [
        ['bars.links.LA1.resistance', '44 µΩ'],
        ['bars.links.LA1.width', '80 mm'],
      ] as const;
      const { links } = read(...(order === 0 ? changes : changes.toReversed()));
      const one = links.find(({ id }) => id === 'LA1')!;
      expect([one.resistance_ohm, one.rated_current_A]).toEqual([44e-6, flatBarRating_A(80, 10)]);
    }
  });

  test.each([
    ['width: { value: 100 mm', 'about: { value: 100 mm', 'about'],
    ['    joint_resistance', '    joint_thermal_resistance', 'K/W'],
    ['bars: { value: 2', 'bars: { value: 2.5', 'not a whole number'],
    ['length: { value: 0.25 m', 'length: { value: 0.25 s', 'a length'],
    ['length: { value: 0.25 m', 'length: { value: 0 m', 'a length above 0'],
  ])('with %s made %s are refused', (from, to, told) => {
    expect(messageOf([byDimensions, ['models/bars-by-dimensions.yaml', from, to]])).toContain(told);
  });

  test('that are incomplete, or bare, say what is missing and where', () => {
    const length: Swap = [
      'models/bars-by-dimensions.yaml',
      '    length: { value: 0.25 m, source: assumed, why: "from one shelf\'s place to the next" }\n',
      '',
    ];
    expect(messageOf([byDimensions, length])).toMatch(
      /models\/bars-by-dimensions\.yaml:\d+:\d+ {2}bars\.segment\n {2}found {5}dimensions without length\n.*\n {2}mend {6}give length as well/,
    );
    const bare: Swap = [
      'models/bars-by-dimensions.yaml',
      '    inductance: { value: 100 nH, source: assumed, why: "plug contact and traces of a sled" }\n',
      '',
    ];
    expect(messageOf([byDimensions, bare])).toContain(
      'found     no inductance\n  expected  resistance and inductance of the bar, or its dimensions\n  mend      give inductance, or width, thickness, gap and length',
    );
  });
});
