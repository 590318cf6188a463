/** How fast a recorded load may change and still be seen: its slowest part bounds it. */
import { describe, expect, test } from 'vitest';
import { lines, read, sampled } from './known-load.ts';

describe('what a recording shows is bounded by its slowest part:', () => {
  const at50Hz = (of: (k: number) => number): string => sampled(50, 500, of);
  const drifting = (k: number) => 1000 + ((k * 7919) % 541);

  test('its rate', () => {
    expect(read(at50Hz(drifting)).statement).toMatchObject({
      bandwidth_Hz: expect.closeTo(22, 9),
      bandwidth_by: 'rate',
    });
  });

  test('a sensor that renews every fifth sample', () => {
    const { statement: s } = read(at50Hz((k) => drifting(Math.floor(k / 5))));
    expect(s).toMatchObject({ bandwidth_Hz: expect.closeTo(4.4, 6), bandwidth_by: 'renewal' });
    expect(s.channels[0]!.renewal_s).toBeCloseTo(0.1, 9);
    expect(
      read(
        at50Hz((k) => drifting(Math.floor(k / 5))),
        { fresh: true },
      ).statement.bandwidth_by,
    ).toBe('rate');
  });

  test('an averaging time that is known', () => {
    expect(read(at50Hz(drifting), { averaging_s: 1 }).statement).toMatchObject({
      bandwidth_Hz: expect.closeTo(0.44, 9),
      bandwidth_by: 'averaging',
    });
  });

  test('but not by plateaus of the load itself', () => {
    const plateaus = (k: number) => (k % 50 < 30 ? 1000 : 1000 + 20 * (k % 50));
    expect(read(at50Hz(plateaus)).statement.bandwidth_by).toBe('rate');
  });
});

describe('rates:', () => {
  test('rounded stamps do not make a meter faster than it is', () => {
    // 833 samples a second, stamps in whole milliseconds: the median says 1000.
    const rows = Array.from(
      { length: 3000 },
      (_, k) => `${Math.round(1.2 * k)},${1000 + ((k * 7919) % 541)}`,
    );
    const { statement: s } = read(`t_ms,power_W\n${rows.join('\n')}\n`);
    expect([s.rate_median_Hz, s.rate_mean_Hz]).toEqual([expect.closeTo(1000, 6), expect.closeTo(833.3, 0)]);
    expect([s.bandwidth_Hz, s.bandwidth_by]).toEqual([expect.closeTo(0.44 / 1.2e-3, 0), 'mean rate']);
  });

  test('gaps do not make it slower', () => {
    const rows = Array.from({ length: 1000 }, (_, k) => `${k + (k > 500 ? 700 : 0)},${1000 + (k % 7)}`);
    const { statement: s } = read(`t_ms,power_W\n${rows.join('\n')}\n`);
    expect([s.rate_mean_Hz, s.bandwidth_by]).toEqual([expect.closeTo(1000, 6), 'rate']);
  });

  test('a sentinel that stands nowhere is said', () => {
    const text = `t_s,power_W\n${lines((t, p) => `${t},${p}`)}`;
    const said = (sentinel: number[]): string => read(text, { sentinel }).statement.inferred.join();
    expect(said([-1, 1280])).toContain('No value is -1, which was stated');
    expect(said([1280])).not.toContain('No value is');
  });

  test('--fresh leaves its trace', () => {
    const text = `t_s,power_W\n${lines((t, p) => `${t},${p}`)}`;
    expect(read(text, { fresh: true }).statement.inferred.join()).toContain('as asked (--fresh)');
    expect(read(text).statement.inferred.join()).not.toContain('--fresh');
  });
});

describe('what a sample is', () => {
  test('an instant is said with what it hides, and a mean as stated', () => {
    const text = sampled(20, 200, (k) => 1000 + (k % 7));
    const told = (samples: 'means' | 'instants' | null): string =>
      read(text, { samples }).statement.inferred.join(' ');
    expect(told('instants')).toMatch(/value at its stamp, as stated: .*half the rate may show as slow ones/);
    expect(told('means')).toMatch(/mean over its interval, as stated/);
    expect(told(null)).not.toMatch(/Each sample/);
  });
});

describe('a stated averaging time', () => {
  const text = `t_s,power_W\n${lines((t, p) => `${t},${p}`)}`;

  test.each([
    [
      { averaging_s: 1, samples: 'instants' },
      /samples that are instants and means over 1 s.*leave out --samples/s,
    ],
    [{ averaging_s: 3600 }, /means over 3.6 ks in a recording of 10 s.*check the unit of --averaging/s],
  ] as const)('that cannot be is refused with the way out: %o', (reading, way) => {
    expect(() => read(text, reading)).toThrow(way);
  });

  test('shorter than the interval is said, and leaves the bandwidth to the rate', () => {
    const { statement } = read(text, { averaging_s: 0.01 });
    expect(statement.inferred.join()).toContain(
      'Each sample is the mean over 10 ms, as stated, of an interval of 500 ms',
    );
    expect([statement.bandwidth_by, statement.bandwidth_Hz]).toEqual(['rate', expect.closeTo(0.88, 2)]);
  });

  test('as long as the interval, or longer, is taken as it stands', () => {
    for (const [averaging_s, by] of [
      [0.5, 'rate'],
      [2, 'averaging'],
    ] as const) {
      const { statement } = read(text, { averaging_s });
      expect([statement.bandwidth_by, statement.inferred.join().includes('Each sample')]).toEqual([
        by,
        false,
      ]);
    }
  });
});
