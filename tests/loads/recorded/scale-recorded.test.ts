import { describe, expect, test } from 'vitest';
import { plainReading, readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import { type RecordedSpec, scaleRecorded } from '../../../src/loads/recorded/scale-recorded.ts';
import type { RecordedReading } from '../../../src/scenario/scenario.ts';
import { contextOf } from '../context.ts';

/** 100 W to 500 W and back every second, ten samples a second, for 20 s; channel a alone. */
const watts = (k: number) => 100 + 80 * Math.min(k % 10, 10 - (k % 10));
const text = `t_s,channel,power_W\n${Array.from({ length: 201 }, (_, k) => `${k / 10},a,${watts(k)}`).join('\n')}\n`;
const load = readRecorded(text, { file: 'saw.csv', sha256: 'abc' });

const spec = (
  over: Partial<Omit<RecordedSpec, 'reading'>> = {},
  reading: Partial<RecordedReading> = {},
): RecordedSpec => ({
  kind: 'recorded',
  file: 'saw.csv',
  from_s: 2,
  to_s: 12,
  peak_W: 200e3,
  scale_ratio: null,
  edges: 'smooth',
  edge_s: 0.005,
  loop: false,
  ...over,
  reading: { ...plainReading, ...reading },
});
const ten = contextOf({ sledCount: 4, duration_s: 10 });

describe('scaleRecorded()', () => {
  test('refuses a judged stretch most of which lies in gaps, and says where the recording is whole', () => {
    const rows = text.split('\n');
    const lost = readRecorded([...rows.slice(0, 42), ...rows.slice(102)].join('\n'), {
      file: 'saw.csv',
      sha256: 'abc',
    });
    const from =
      (from_s: number, warm_up_s = 0) =>
      () =>
        scaleRecorded(lost, spec({ from_s, to_s: from_s + 8 }), { ...ten, duration_s: 8, warm_up_s });
    expect(from(3)).toThrow(
      /a judged stretch from 3 s to 11 s of which 76\.3 % was never recorded.*\n.*at least 50 % was recorded.*\n.*the recording is whole from 10\.1 s to 20 s/,
    );
    expect(from(7)).not.toThrow();
    // What is not judged may be a bridge.
    expect(from(5)).toThrow(/never recorded/);
    expect(from(5, 3)).not.toThrow();
    const spread = spec({ from_s: 5, to_s: 13 }, { coincidence: 'spread' });
    expect(() => scaleRecorded(lost, spread, { ...ten, duration_s: 8, warm_up_s: 3 })).toThrow(
      /never recorded/,
    );
  });

  test('scales the stretch to its peak: exact values on exact ticks, mean and energy of the closed form', () => {
    const { demand, scale_ratio } = scaleRecorded(load, spec(), ten);
    expect(scale_ratio).toBe(400);
    const out = new Float64Array(1);
    const at = (t: number) => {
      demand.at(out, t);
      return out[0]!;
    };
    expect([at(0), at(400_000), at(2_000_000), at(4_000_000)]).toEqual([40e3, 72e3, 200e3, 40e3]);
    expect([demand.nextKink(0), demand.nextKink(2_000_000)]).toEqual([2_000_000, 4_000_000]);
    expect(demand.mean_W).toBeCloseTo(120e3, 6);
    expect(demand.energy_J).toBeCloseTo(1.2e6, 4);
    expect([demand.peak_W, demand.low_W]).toEqual([200e3, 40e3]);
    expect(demand.period_ticks).toBeNull();
    expect(demand.bandwidth_Hz).toBeCloseTo(4.4, 6);
    expect(demand.rounding_s).toBe(0);
  });

  test('takes a scale or a number of copies instead of a peak', () => {
    expect(scaleRecorded(load, spec({ peak_W: null, scale_ratio: 2.5 }), ten).demand.peak_W).toBe(1250);
    expect(scaleRecorded(load, spec({ peak_W: null }, { copies: 3 }), ten).demand.peak_W).toBe(1500);
  });

  test('states source, bandwidth, scale, coincidence, rounding and edits', () => {
    expect(scaleRecorded(load, spec(), ten).sentences.join('\n')).toMatchInlineSnapshot(`
      "Recorded load saw.csv, SHA-256 abc.
      201 rows, 1 channel (a), measured at the devices on the DC side.
      Median rate 10 Hz. Content above 4.4 Hz (0.44 of the rate, where a mean over that time has lost 3 dB) is not shown: limits that need it are inconclusive.
      Played from 2 s to 12 s of the recording; the run uses 10 s of 10 s.
      Scaled by 400: 500 W, its highest from 2 s to 12 s, becomes 200 kW; it represents 400 copies of the whole recording.
      All copies run in step (together).
      Stamps are rounded to ticks by at most 0 s; energy of the stretch 1.2 MJ before and 1.2 MJ after.
      Nothing was edited."
    `);
  });

  test('worst is together, and says that it is the bound', () => {
    const { demand, sentences } = scaleRecorded(load, spec({}, { coincidence: 'worst' }), ten);
    expect(demand.peak_W).toBe(200e3);
    expect(sentences).toContain(
      'All copies run in step (worst): no other timing of the copies swings more, so this is the upper bound.',
    );
  });

  test('spread turns each copy by its own seeded offset: same energy, lower peak, same for the same seed', () => {
    const s = spec({ to_s: 11.9 }, { coincidence: 'spread' });
    const long = contextOf({ sledCount: 4, duration_s: 9.9, seed: 3 });
    const { demand, sentences } = scaleRecorded(load, s, long);
    expect(demand.profileCount).toBe(4);
    expect([...demand.profileOf]).toEqual([0, 1, 2, 3]);
    expect(demand.peak_W).toBeLessThan(200e3);
    // One turn is ten whole seconds of the saw with its seam; a run of 9.9 s leaves out at most 0.1 s of each copy.
    expect(Math.abs(demand.mean_W / 120e3 - 1)).toBeLessThan(0.01);
    const again = scaleRecorded(load, s, long);
    expect(again.sentences).toEqual(sentences);
    const other = scaleRecorded(load, s, { ...long, seed: 4 });
    expect(other.sentences).not.toEqual(sentences);
    expect(sentences.find((line) => line.startsWith('Each sled'))).toMatchInlineSnapshot(
      `"Each sled plays the stretch with its own seeded cyclic offset (spread): 0.000, 5.970, 9.947, 5.072 s. The highest total is 187.6 kW."`,
    );
  });

  test('rounds recorded stamps to ticks and reports the largest shift', () => {
    const odd = readRecorded('t_s,power_W\n0,100\n0.50000011,200\n1.5,100\n', {
      file: 'odd.csv',
      sha256: 'x',
    });
    const { demand } = scaleRecorded(odd, spec({ from_s: 0, to_s: 1.5 }), contextOf({ duration_s: 1.5 }));
    expect(demand.nextKink(0)).toBe(2_000_000);
    expect(demand.rounding_s).toBeCloseTo(0.11e-6, 12);
  });

  test('holds the nearest total over a short end that not all channels cover, and says so', () => {
    const rows = Array.from({ length: 40 }, (_, k) => `${k / 10},a,10\n${k / 10 + 0.03},b,20`);
    const two = readRecorded(`t_s,channel,power_W\n${rows.join('\n')}\n`, { file: 'two.csv', sha256: 'x' });
    const s = spec({ from_s: 0, to_s: 3.9, peak_W: 30 });
    const { demand, sentences } = scaleRecorded(two, s, contextOf({ duration_s: 3.9 }));
    expect([demand.low_W, demand.peak_W]).toEqual([30, 30]);
    expect(sentences).toContain('30 ms at the ends, where not all channels run, hold the nearest total.');
  });

  test('refuses a run longer than the stretch and says the longest', () => {
    expect(() =>
      scaleRecorded(load, spec(), contextOf({ duration_s: 16 })),
    ).toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.to
        found     a run of 16 s on a stretch of 10 s
        expected  a stretch that is at least as long as the run
        mend      shorten duration to 10 s at most, loop it (loop: true), or widen from and to (the recording has 0 s to 20 s)
      1 problem. Nothing was run.]
    `);
  });

  test('refuses a stretch outside the recording', () => {
    expect(() =>
      scaleRecorded(load, spec({ from_s: 15, to_s: 30 }), ten),
    ).toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.to
        found     from 15 s to 30 s
        expected  a stretch of the recording, 0 s to 20 s
        mend      write from and to within 0 s and 20 s
      1 problem. Nothing was run.]
    `);
  });

  test('refuses the AC side, two scales and no scale, all at once', () => {
    const ac = spec({ scale_ratio: 2 }, { side: 'ac' });
    expect(() => scaleRecorded(load, ac, ten)).toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.reading.side
        found     ac, measured on the AC side
        expected  dc: behind a power supply the load is already smoothed and cannot drive the DC bus
        mend      record on the DC side, or at the devices; or accept it (accept_ac: true) for what is slower than a power supply filters
      load.peak
        found     both peak and scale
        expected  one of them
        mend      leave one out
      2 problems. Nothing was run.]
    `);
    expect(() => scaleRecorded(load, spec({ peak_W: null }), ten)).toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.peak
        found     no scale
        expected  a peak, a scale or a number of copies
        mend      write for example peak: 200 kW
      1 problem. Nothing was run.]
    `);
  });
});
