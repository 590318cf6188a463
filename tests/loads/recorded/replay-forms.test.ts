import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/loads/random.ts';
import { alignChannels } from '../../../src/loads/recorded/align-channels.ts';
import { plainReading, readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import { type RecordedSpec, scaleRecorded } from '../../../src/loads/recorded/scale-recorded.ts';
import { openSeam } from '../../../src/loads/recorded/seam.ts';
import { sharpCorners } from '../../../src/loads/recorded/sharp-corners.ts';
import { lagOf } from '../../../src/samples/lag.ts';
import { trapezoid_J } from '../../../src/samples/series.ts';
import type { RecordedReading } from '../../../src/scenario/scenario.ts';
import { contextOf } from '../context.ts';

const seriesOf = (power: readonly number[], interval_s = 0.1) => ({
  time_s: Float64Array.from(power, (_, i) => i * interval_s),
  power_W: Float64Array.from(power),
});

describe('sharpCorners()', () => {
  test('puts a step between plateaus at the instant that the sample between them tells', () => {
    // 100 W to 300 W; the sample between is 250 W: three quarters of its cell lie above, from 0.175 s on.
    const sharp = sharpCorners(seriesOf([100, 100, 250, 300, 300]), 0.01);
    expect([...sharp.power_W]).toEqual([100, 100, 300, 300]);
    expect(sharp.time_s[1]).toBeCloseTo(0.17, 12);
    expect(sharp.time_s[2]).toBeCloseTo(0.18, 12);
  });

  test('keeps the energy of the straight lines for any samples and stamps', () => {
    const random = new Random(3);
    for (let round = 0; round < 50; round++) {
      let t = 0;
      const n = 2 + Math.floor(40 * random.uniform());
      const time_s = Float64Array.from({ length: n }, () => (t += 0.01 + random.uniform()));
      const power_W = Float64Array.from(time_s, () => Math.floor(5 * random.uniform()) * 100);
      const sharp = sharpCorners({ time_s, power_W }, 0.3 * random.uniform());
      const smooth_J = trapezoid_J(time_s, power_W);
      expect(Math.abs(trapezoid_J(sharp.time_s, sharp.power_W) - smooth_J)).toBeLessThan(
        1e-9 * (1 + smooth_J),
      );
      for (let i = 1; i < sharp.time_s.length; i++) {
        expect(sharp.time_s[i]! - sharp.time_s[i - 1]!).toBeGreaterThanOrEqual(0);
      }
      expect(Math.max(...sharp.power_W)).toBeLessThanOrEqual(Math.max(...power_W));
    }
  });

  test('gives the slope of the edge that 10 Hz had flattened twentyfold', () => {
    const { time_s, power_W } = sharpCorners(seriesOf([100, 100, 100, 300, 300, 300]), 0.005);
    const i = power_W.indexOf(300);
    const slope = 200 / (time_s[i]! - time_s[i - 1]!);
    expect(slope / (200 / 0.1)).toBeCloseTo(20, 9);
  });
});

describe('openSeam()', () => {
  test('lets ends meet that are no further apart than neighbours are', () => {
    expect(openSeam(seriesOf([100, 200, 300, 200, 150]))).toBeNull();
  });
  test('names the instant near the end that is nearest to the start', () => {
    const power = Array.from({ length: 101 }, (_, i) => 100 + i);
    power[90] = 103;
    expect(
      openSeam({ ...seriesOf(power), power_W: Float64Array.from(power, (p, i) => (i > 95 ? 190 : p)) }),
    ).toMatchObject({
      better_s: expect.closeTo(9, 9),
    });
  });
});

const watts = (k: number) => 100 + 80 * Math.min(k % 10, 10 - (k % 10));
const text = `t_s,a_W\n${Array.from({ length: 201 }, (_, k) => `${k / 10},${watts(k)}`).join('\n')}\n`;
const read = (reading: Partial<RecordedReading> = {}) =>
  readRecorded(text, { file: 'saw.csv', sha256: 'abc' }, { ...plainReading, power: ['a_W'], ...reading });
const spec = (
  over: Partial<Omit<RecordedSpec, 'reading'>>,
  reading: Partial<RecordedReading> = {},
): RecordedSpec => ({
  kind: 'recorded',
  file: 'saw.csv',
  from_s: 0,
  to_s: 10,
  peak_W: null,
  scale_ratio: 1,
  edges: 'smooth',
  edge_s: 0.005,
  loop: false,
  ...over,
  reading: { ...plainReading, ...reading },
});

describe('a replay', () => {
  test('reads sharp with the same mean, the same peak and steeper edges', () => {
    const ten = contextOf({ duration_s: 10 });
    const smooth = scaleRecorded(read(), spec({}), ten).demand;
    const sharp = scaleRecorded(read(), spec({ edges: 'sharp' }), ten);
    expect(sharp.demand.mean_W).toBeCloseTo(smooth.mean_W, 6);
    expect(sharp.demand.peak_W).toBe(smooth.peak_W);
    const kink = (d: typeof smooth) => d.kinkAt(d.nextKink(0));
    expect(kink(sharp.demand)).toBeGreaterThan(10 * kink(smooth));
    expect(sharp.sentences.join(' ')).toContain('Read sharp: steps that keep the energy of each sample');
  });

  test('loops a stretch whose ends meet, and repeats exactly', () => {
    const { demand } = scaleRecorded(read(), spec({ to_s: 0.9, loop: true }), contextOf({ duration_s: 30 }));
    const out = new Float64Array(1);
    const at = (tick: number) => {
      demand.at(out, tick);
      return out[0];
    };
    expect(demand.period_ticks).toBe(4e6);
    expect([at(0), at(2e6), at(6e6), at(102e6)]).toEqual([100, 500, 500, 500]);
  });

  test('refuses a seam that is an edge, however many edges the recording has', () => {
    const square = (last_W: number) =>
      Array.from({ length: 101 }, (_, k) => `${k / 10},${k === 100 ? last_W : k % 10 < 5 ? 79_000 : 0}`);
    const looped = (last_W: number) =>
      scaleRecorded(
        readRecorded(`t_s,P_W\n${square(last_W).join('\n')}\n`, { file: 'square.csv', sha256: 'x' }),
        spec({ to_s: 10, loop: true }),
        contextOf({ duration_s: 30 }),
      );
    expect(() => looped(0)).toThrow(/ends that are 79 kW apart/);
    expect(looped(78_000).sentences.join()).toContain('Played again and again');
  });

  test('refuses to loop a stretch whose ends lie apart, and names a better end', () => {
    expect(() =>
      scaleRecorded(read(), spec({ to_s: 0.5, loop: true }), contextOf({ duration_s: 30 })),
    ).toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.loop
        found     ends that are 400 W apart, more than 5 % of the stretch's swing and than the recording usually moves between two samples
        expected  a stretch whose ends meet, so that the seam is no edge of its own
        mend      move from or to: no end in the second half of the stretch meets its start
      1 problem. Nothing was run.]
    `);
  });

  test('accepts an AC recording only when told so, and then shows 5 Hz at most', () => {
    const ac = { side: 'ac', accept_ac: true } as const;
    const fast = text.replaceAll(/^(\d+\.?\d*),/gm, (_, t: string) => `${Number(t) / 100},`);
    const load = readRecorded(
      fast,
      { file: 'ac.csv', sha256: 'x' },
      { ...plainReading, power: ['a_W'], ...ac },
    );
    expect(load.statement).toMatchObject({ bandwidth_Hz: 5, bandwidth_by: 'AC side' });
    const { sentences } = scaleRecorded(load, spec({ to_s: 0.2 }, ac), contextOf({ duration_s: 0.1 }));
    expect(sentences.join(' ')).toContain('Recorded on the AC side and accepted for the DC load');
  });
});

describe('alignment', () => {
  const noise = (seed: number) => {
    const random = new Random(seed);
    let level = 0;
    return Array.from({ length: 400 }, () => {
      if (random.uniform() < 0.08) level = 500 * random.uniform();
      return level + 50 * random.uniform();
    });
  };

  test('finds a lag of a noisy load, below one sample too, and moves the channel back', () => {
    const base = noise(1);
    const a = { name: 'a', series: seriesOf(base) };
    const late = seriesOf(base.map((p, i) => p + (i % 3)));
    const b = { name: 'b', series: { ...late, time_s: late.time_s.map((t) => t + 0.73) } };
    const [found] = alignChannels([a, b]);
    expect(found!.alignment.lag_s).toBeCloseTo(0.73, 1);
    expect(found!.alignment.moved).toBe(true);
    expect(Math.abs(found!.series.time_s[0]! - a.series.time_s[0]!)).toBeLessThan(0.02);
  });

  test('has no confidence in the lag of what repeats exactly', () => {
    const saw = Float64Array.from({ length: 400 }, (_, i) => i % 20);
    expect(lagOf(saw, saw, 0.1, 100)!.confidence_ratio).toBeLessThan(0.05);
  });

  test('moves nothing where channels have nothing in common', () => {
    const other = seriesOf(Array.from({ length: 400 }, (_, i) => noise(7)[(i * 37) % 400]!));
    const [found] = alignChannels([
      { name: 'a', series: seriesOf(noise(1)) },
      { name: 'b', series: other },
    ]);
    expect(found!.alignment.moved).toBe(false);
  });

  test('of channels recorded together keeps the energy: the end that is missing is held, and far lags are left', () => {
    const base = noise(3);
    const csv = (lag: number) =>
      base.map((p, i) => `${i / 10},${p},${base[Math.max(0, i - lag)]!}`).join('\n');
    const read = (lag: number, align: boolean) =>
      readRecorded(
        `t_s,P1_W,P2_W\n${csv(lag)}\n`,
        { file: 'two.csv', sha256: 'x' },
        { ...plainReading, align },
      ).statement;
    const near = read(4, true);
    expect(near.alignment[0]).toMatchObject({ moved: true, lag_s: expect.closeTo(0.4, 1) });
    expect(Math.abs(near.total.energy_J / read(4, false).total.energy_J - 1)).toBeLessThan(0.02);
    expect([near.total.from_s, near.total.to_s]).toEqual([expect.closeTo(0.4, 1), expect.closeTo(40.3, 1)]);
    const far = read(100, true);
    expect(far.alignment[0]!.moved).toBe(false);
    expect(far.total.energy_J).toBe(read(100, false).total.energy_J);
  });
});
