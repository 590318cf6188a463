import { describe, expect, test } from 'vitest';
import { curvesOf, everyStep } from '../../scripts/identification/every-step.ts';
import { readingOf } from '../../scripts/identification/instrument.ts';
import { channelsOf } from '../../src/engine/gauge.ts';
import { Random } from '../../src/loads/random.ts';
import { layOver } from '../../src/measured/lay-over.ts';
import type { Measurement, StatedTime } from '../../src/measured/measurement.ts';
import { MeasuredReader } from '../../src/measured/read-measured.ts';
import { sensorKinds } from '../../src/measured/sensor/sensor.ts';
import { assemble } from '../../src/network/network.ts';
import { readShipped } from '../scenario/shipped.ts';

const { scenario } = readShipped('scenarios/training-iterations.yaml', [], {
  changes: [
    { path: 'duration', value: '8 s' },
    { path: 'warm_up', value: '1 s' },
  ],
});
const channels = channelsOf(assemble(scenario));

type Pairs = readonly (readonly [string, string])[];
const read = (text: string, map: Pairs = [], sensors: Pairs = []) => {
  const reading = {
    time: null,
    dates: null,
    decimal: null,
    map: new Map(map),
    sensors: new Map(sensors),
    sentinel: [-999],
  };
  const reader = new MeasuredReader('bench.csv', reading, channels);
  reader.push(text);
  return reader.finish('sum');
};

describe('MeasuredReader', () => {
  test('takes columns by the names of channels, in the units they are written in, and says what it took', () => {
    const m = read('t_s,A.S1.voltage_mV,S1 current (kA),pump_W\n0,50000,0.4,1\n1,50100,0.5,2\n', [
      ['S1 current (kA)', 'S1.current_A'],
    ]);
    expect(m.columns.map(({ channel, values }) => [channel, [...values]])).toEqual([
      ['A.S1.voltage_V', [50, 50.1]],
      ['S1.current_A', [400, 500]],
    ]);
    expect(m.remarks).toEqual([
      'Time is column t_s in s, by its name.',
      'Column A.S1.voltage_mV is channel A.S1.voltage_V, by its name.',
      'Not used: pump_W.',
      'No value is -999, which was stated to mean that nothing was read.',
    ]);
  });

  test.each([
    ['0.227 s', '1.227 s'],
    ['1700000000.227', '1700000001.227'],
    ['2026-11-26 10:00:00.227', '2026-11-26 10:00:01.227'],
  ])('counts time from the first stamp, whether it is %s', (first, second) => {
    const { columns } = read(`time,A.S1.voltage_V\n${first},50\n${second},51\n`);
    expect(columns[0]!.time_s[0]).toBe(0);
    expect(columns[0]!.time_s[1]).toBeCloseTo(1, 6);
  });

  test('names the option where no column names a channel, and the nearest channel where a map misses', () => {
    expect(() => read('t_s,v_bus\n0,50\n1,50\n')).toThrowErrorMatchingInlineSnapshot(`
      [BadInput: bench.csv:1
        found     no column that names a channel of the model: t_s, v_bus
        expected  columns such as A.S1.voltage_V, S1.current_A, total.ac_power_W
        mend      give --map v_bus=CHANNEL, for example --map v_bus=total.ac_power_W
      1 problem in 1 file. Nothing was run.]
    `);
    expect(() =>
      read('t_s,v_bus\n0,50\n1,50\n', [['v_bus', 'A.S1.volts']]),
    ).toThrowErrorMatchingInlineSnapshot(`
      [BadInput: bench.csv:1
        found     no channel A.S1.volts
        expected  a channel of the model
        mend      nearest: A.S1.voltage_V
      1 problem in 1 file. Nothing was run.]
    `);
    expect(() => read('t_s,v_bus_A\n0,50\n1,50\n', [['v_bus_A', 'A.S1.voltage_V']])).toThrow(/a column in V/);
  });
});

describe('commas that may be decimal or part thousands', () => {
  test('are asked about by the cell that is open and the two values that it may have', () => {
    expect(() => read('t_s;total.ac_power_W\n0;12,345\n1;12,346\n')).toThrow(
      /such as 12,345, which may be 12.345 or 12345.*give --measured-decimal comma where it is 12.345, or/s,
    );
  });
});

describe('a measurement laid over a run', () => {
  const rows = everyStep(scenario, ['A.S1.voltage_V', 'total.ac_power_W']);
  const [bus, power] = rows.channels.map((channel) => readingOf(rows, channel, undefined));
  const layOverRun = (measurement: Measurement, stated: StatedTime) =>
    layOver(measurement, curvesOf(rows, measurement.columns), stated);
  const random = new Random(11);
  /** The model itself as measured: 200 Hz from 2.5 s of the run on, an offset, noise evenly within ± 1 kW. */
  const lines = Array.from({ length: 900 }, (_, k) => {
    const t = 2.5 + k / 200;
    const ac = power!(t) + 500 + 2000 * (random.uniform() - 0.5);
    return `${k / 200},${bus!(t).toFixed(4)},${ac.toFixed(1)}`;
  });
  const measurement = read(`t_s,A.S1.voltage_V,total.ac_power_W\n${lines.join('\n')}\n`);
  const found = layOverRun(measurement, { at_s: null });

  test('is put where it agrees best, to a fraction of its interval', () => {
    expect(found).toMatchObject({ aligned: 'found', by: 'A.S1.voltage_V' });
    expect(Math.abs(found.at_s - 2.5)).toBeLessThan(0.2 / 200);
    expect(found.confidence_ratio).toBeGreaterThan(0.02);
  });

  test('shows offset and noise as bias and RMS, in the bands where they lie', () => {
    const ac = layOverRun(measurement, { at_s: 2.5 }).channels.find(
      ({ channel }) => channel === 'total.ac_power_W',
    )!;
    // Noise even within ± 1 kW: 2000/√12 W RMS; the mean of 900 of them within 4/√900 of that.
    const noise = 2000 / Math.sqrt(12);
    expect(Math.abs(ac.bias - 500)).toBeLessThan((4 * noise) / Math.sqrt(900));
    expect(ac.rms).toBeCloseTo(Math.hypot(500, noise), -2);
    expect(Math.abs(ac.peak)).toBeLessThanOrEqual(1500.1);
    const [, slow, middle, fast] = ac.bands.map(({ rms }) => rms);
    // White noise to 100 Hz: a band's part is the root of its share of the width; 20 Hz to 88 Hz is 68 %.
    expect(slow).toBeLessThan(0.35 * noise);
    expect(middle! / noise).toBeCloseTo(Math.sqrt(17 / 100), 1);
    expect(fast! / noise).toBeCloseTo(Math.sqrt(68 / 100), 1);
  });

  test('errs by the resolution of its digits where model and measurement are one', () => {
    const bus = layOverRun(measurement, { at_s: 2.5 }).channels.find(
      ({ channel }) => channel === 'A.S1.voltage_V',
    )!;
    expect(bus.rms).toBeLessThan(5e-5);
    expect(bus.correlation_ratio).toBeGreaterThan(0.9999);
  });

  describe('read by a scale that is off', () => {
    const warnings = (gain_V: number, gain_W: number, sensors: Pairs = []): string => {
      const dice = new Random(7);
      const rows = Array.from({ length: 600 }, (_, k) => {
        const t = 2.5 + k / 200;
        const seen_V = gain_V * bus!(t) + 0.002 * dice.gaussian();
        return `${k / 200},${seen_V.toFixed(4)},${(gain_W * power!(t) + 500 * dice.gaussian()).toFixed(1)}`;
      });
      const text = `t_s,A.S1.voltage_V,total.ac_power_W\n${rows.join('\n')}\n`;
      return layOverRun(read(text, [], sensors), { at_s: null }).warnings.join(' ');
    };

    test.each([
      [1.01, 1, /A\.S1\.voltage_V has a bias of 49\d\.\d mV \(49/],
      [1.2, 1, /^A\.S1\.voltage_V has a gain of 1\.19\d* \(.* to 1\.2.* and a bias of 9\.9/],
      [1, 1.2, /^total\.ac_power_W has a gain of 1\.\d+ \(/],
      // No channel is left that shows the place within its class.
      [1.2, 1.2, /^The place was found by shape alone/],
    ])('of %d in voltage and %d in power, says so by name, number and interval', (gain_V, gain_W, wanted) => {
      expect(warnings(gain_V, gain_W)).toMatch(wanted);
    });

    test('says nothing where all is right, or where the declared class explains it', () => {
      expect(warnings(1, 1)).toBe('');
      expect(warnings(1.01, 1, [['A.S1.voltage_V', 'divider, gain 1.5 %']])).toBe('');
      expect(warnings(1.01, 1, [['A.S1.voltage_V', 'divider, scale 1.01']])).toBe('');
    });
  });

  describe('by a clock of another pace', () => {
    /** The AC power as measured at 200 Hz with noise, by a clock whose second lasts 1 + rate of the run's. */
    const drifting = (rate: number, seed: number) => {
      const dice = new Random(seed);
      const lines = Array.from({ length: 1200 }, (_, k) => {
        const shown_W = power!(1.5 + (k / 200) * (1 + rate));
        return `${k / 200},${(shown_W + 2000 * (dice.uniform() - 0.5)).toFixed(1)}`;
      });
      return layOverRun(read(`t_s,total.ac_power_W\n${lines.join('\n')}\n`), { at_s: null });
    };
    const seeds = Array.from({ length: 12 }, (_, k) => k + 1);

    test.each([600, -600, 3000])('of %d ppm is found within its error, and taken out', (ppm) => {
      const off = seeds.map((seed) => {
        const m = drifting(ppm / 1e6, seed);
        expect(m.clock_rate_ratio).not.toBeNull();
        const noise = 2000 / Math.sqrt(12);
        expect(m.channels[0]!.rms / noise).toBeLessThan(1.1);
        return (m.clock_rate_ratio! - ppm / 1e6) / m.clock_rate_error_ratio!;
      });
      // Twelve normal numbers: their mean square stays below 2.2 in 99 of 100 cases (chi-square, 12).
      expect(off.reduce((sum, x) => sum + x * x, 0) / off.length).toBeLessThan(2.2);
    });

    test('of the same pace is not told apart from the run', () => {
      const told = seeds.filter((seed) => drifting(0, seed).clock_rate_ratio !== null);
      expect(told.length).toBeLessThanOrEqual(1);
    });
  });

  describe('through a declared sensor', () => {
    /** Mean over 100 ms of the AC power, 10 Hz; 1 kW of bias. */
    const mean = readingOf(rows, 'total.ac_power_W', { ...sensorKinds.meter, averaging_s: 0.1 });
    const metered = Array.from({ length: 40 }, (_, k) => `${k / 10},${mean(2 + k / 10) + 1000}`);
    const text = `t_s,total.ac_power_W\n${metered.join('\n')}\n`;
    const bench = (sensors: Pairs) => layOverRun(read(text, [], sensors), { at_s: 2 }).channels[0]!;

    test('a mean is compared with the mean, and its class says what bias it explains', () => {
      const plain = bench([]);
      const seen = bench([['total.ac_power_W', 'meter, averaging 100 ms, range 300 kW, bias 0.2 %']]);
      const left = ({ rms, bias }: typeof plain): number => Math.sqrt(rms * rms - bias * bias);
      expect(left(plain)).toBeGreaterThan(1000);
      expect(left(seen)).toBeLessThan(0.01 * left(plain));
      expect(Math.abs(seen.bias - 1000)).toBeLessThan(20);
      expect([plain.sensor, seen.sensor]).toEqual([null, 'meter']);
      expect(seen.allowed_bias).toBeGreaterThan(1000);
    });

    test('readings at the end of its range are left out and counted', () => {
      const clipped = read(
        't_s,total.ac_power_W\n0,1000\n1,2000\n2,2000\n3,1500\n',
        [],
        [['total.ac_power_W', 'meter, range 2 kW']],
      );
      expect([...clipped.columns[0]!.values]).toEqual([1000, 1500]);
      expect(clipped.remarks).toContain('Left out: 2 readings of total.ac_power_W at the end of its range.');
    });

    test('values that stand for no reading are left out and counted', () => {
      const gaps = read('t_s,total.ac_power_W\n0,1000\n1,-999\n2,1500\n3,-998\n');
      expect([...gaps.columns[0]!.values]).toEqual([1000, 1500, -998]);
      expect(gaps.remarks).toContain('Left out: 1 value that stands for no reading.');
    });

    test('a sentinel that stands nowhere is said', () => {
      const whole = read('t_s,total.ac_power_W\n0,1000\n1,-99\n2,1500\n');
      expect(whole.remarks).toContain('No value is -999, which was stated to mean that nothing was read.');
    });

    test('one sensor by the column and another by its channel are refused', () => {
      const sensors: Pairs = [
        ['p_W', 'meter'],
        ['total.ac_power_W', 'shunt'],
      ];
      expect(() => read('t_s,p_W\n0,1\n1,2\n', [['p_W', 'total.ac_power_W']], sensors)).toThrow(
        /a sensor of p_W and one of total.ac_power_W/,
      );
    });

    test('a sensor of a column that is not compared is refused', () => {
      expect(() => read(text, [], [['pump_W', 'meter']])).toThrow(
        /a sensor of pump_W, which is not compared.*a sensor of one of total.ac_power_W\n/s,
      );
    });
  });

  test('is assumed to begin with the run where it shows nothing to place it by', () => {
    const flat = read('t_s,A.S1.voltage_V\n0,50\n0.5,50\n1,50\n1.5,50\n2,50\n');
    expect(layOverRun(flat, { at_s: null })).toMatchObject({ aligned: 'assumed', at_s: 0, by: null });
  });
});
