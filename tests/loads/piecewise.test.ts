import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makeShape, Piecewise } from '../../src/loads/piecewise.ts';

const tick_s = 0.25e-6;
const saw = () => makeShape([0, 10, 30], [0, 100, 50], 40);

describe('Piecewise', () => {
  test('at() is straight between corners and holds the ends of a curve that does not repeat', () => {
    const p = new Piecewise(makeShape([10, 20], [1, 3], null), 0, tick_s);
    expect([-5, 10, 15, 20, 99].map((t) => p.at(t))).toEqual([1, 1, 2, 3, 3]);
  });

  test('a periodic curve closes from its last corner to its first, one period on', () => {
    const p = new Piecewise(saw(), 0, tick_s);
    expect([30, 35, 40, 45].map((t) => p.at(t))).toEqual([50, 25, 0, 50]);
  });

  test('a periodic curve repeats bit for bit a billion periods on and stores one period', () => {
    const p = new Piecewise(saw(), 0, tick_s);
    const far = 40 * 1e9;
    for (let t = 0; t < 40; t++) {
      expect(p.at(t + far)).toBe(p.at(t));
      expect(p.kinkAt(t + far)).toBe(p.kinkAt(t));
      expect(p.nextKink(t + far) - far).toBe(p.nextKink(t));
    }
    expect(p.shape.ticks.length).toBe(3);
  });

  test('nextKink() visits each corner once, from before the first to beyond the last', () => {
    const p = new Piecewise(makeShape([10, 20, 35], [1, 3, 0], null), 0, tick_s);
    expect([-1, 9, 10, 19, 20, 34].map((t) => p.nextKink(t))).toEqual([10, 10, 20, 20, 35, 35]);
    expect(p.nextKink(35)).toBe(Number.POSITIVE_INFINITY);
    const q = new Piecewise(saw(), 0, tick_s);
    expect([0, 10, 29, 30, 39, 40].map((t) => q.nextKink(t))).toEqual([10, 30, 30, 40, 40, 50]);
  });

  test('kinkAt() is the change of slope in W/s and 0 between corners', () => {
    const p = new Piecewise(makeShape([10, 20], [1, 3], null), 0, tick_s);
    expect(p.kinkAt(10)).toBe(0.2 / tick_s);
    expect(p.kinkAt(20)).toBe(0.2 / tick_s);
    expect(p.kinkAt(15)).toBe(0);
    const q = new Piecewise(saw(), 0, tick_s);
    expect(q.kinkAt(0)).toBe(15 / tick_s);
    expect(q.kinkAt(10)).toBe(12.5 / tick_s);
  });

  test('a corner on a straight line is not a kink and is not stored', () => {
    const p = new Piecewise(makeShape([0, 1, 2, 3], [5, 5, 5, 7], null), 0, tick_s);
    expect([...p.shape.ticks]).toEqual([2, 3]);
    expect(p.nextKink(-1)).toBe(2);
    const flat = new Piecewise(makeShape([0, 4], [5, 5], 9), 0, tick_s);
    expect(flat.nextKink(0)).toBe(Number.POSITIVE_INFINITY);
    expect([0, 3, 8, 100].map((t) => flat.at(t))).toEqual([5, 5, 5, 5]);
    expect(flat.energy_J(0, 100)).toBe(500 * tick_s);
  });

  test('energy_J() is the closed-form area, over many periods and from any start', () => {
    const p = new Piecewise(saw(), 7, tick_s);
    const period = (0.5 * 10 * 100 + 20 * 75 + 0.5 * 10 * 50) * tick_s;
    expect(p.energy_J(7, 7 + 40)).toBeCloseTo(period, 12);
    expect(p.energy_J(-33, 7 + 4000)).toBeCloseTo(101 * period, 12);
    expect(p.energy_J(0, 7)).toBeCloseTo(p.energy_J(40, 47), 15);
  });

  test('any order of ticks gives the same bits as the forward order', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 50 }), fc.integer({ min: 0, max: 1000 })), {
          minLength: 2,
          maxLength: 60,
        }),
        fc.array(fc.integer({ min: -100, max: 4000 }), { minLength: 1, maxLength: 60 }),
        fc.boolean(),
        (steps, asked, periodic) => {
          let t = 0;
          const ticks = steps.map(([d]) => (t += d));
          const shape = makeShape(
            ticks,
            steps.map(([, v]) => v),
            periodic ? t + 13 : null,
          );
          const roaming = new Piecewise(shape, 5, tick_s);
          for (const tick of asked) {
            const fresh = new Piecewise(shape, 5, tick_s);
            expect(roaming.at(tick)).toBe(fresh.at(tick));
            expect(roaming.nextKink(tick)).toBe(fresh.nextKink(tick));
            expect(roaming.kinkAt(tick)).toBe(fresh.kinkAt(tick));
          }
        },
      ),
      { seed: 20, numRuns: 200 },
    );
  });

  test('corners out of order, off the ticks or outside the period are a RangeError', () => {
    expect(() => makeShape([0, 0], [1, 2], null)).toThrow(new RangeError('tick 0 does not follow 0'));
    expect(() => makeShape([0.5], [1], null)).toThrow(RangeError);
    expect(() => makeShape([0, 40], [1, 2], 40)).toThrow(RangeError);
    expect(() => makeShape([0], [1, 2], null)).toThrow(new RangeError('1 ticks but 2 values'));
  });
});
