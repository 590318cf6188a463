/** Rows that leave a run while it goes on: the same with both kernels, the same as what the run keeps, without a trace. */
import { describe, expect, it } from 'vitest';
import { seriesOf } from '../../../src/channels/series.ts';
import type { KernelChoice } from '../../../src/engine/fast/kernel-form.ts';
import { channelsOf } from '../../../src/engine/gauge.ts';
import type { Pace, WaveformOrder } from '../../../src/engine/meters/waveforms.ts';
import type { Result } from '../../../src/engine/result.ts';
import { simulate } from '../../../src/engine/simulate.ts';
import { levelsOf } from '../../../src/limits/levels.ts';
import { makeDemand } from '../../../src/loads/make-demand.ts';
import { assemble } from '../../../src/network/network.ts';
import { readShipped } from '../../scenario/shipped.ts';

const { scenario } = readShipped('scenarios/single-step.yaml', [], {
  changes: [
    { path: 'duration', value: '0.31 s' },
    { path: 'load.at', value: '0.05 s' },
    { path: 'warm_up', value: '0 s' },
  ],
});
const series = seriesOf(
  channelsOf(assemble(scenario)),
  scenario.feeders.map(({ id }) => ({
    id,
    shelves: scenario.shelves.filter(({ feeder }) => feeder === id).map((shelf) => shelf.id),
  })),
);

interface Taken {
  readonly time_s: number[];
  readonly columns: ReadonlyMap<string, number[]>;
  readonly result: Result;
}

function taken(pace: Pace | null, kernel: KernelChoice = 'fast'): Taken {
  const time_s: number[] = [];
  const columns = new Map(series.map(({ id }): [string, number[]] => [id, []]));
  const lists = [...columns.values()];
  const waveforms: WaveformOrder | undefined =
    pace === null
      ? undefined
      : {
          series,
          pace,
          take: (t, values) => {
            time_s.push(t);
            values.forEach((value, c) => {
              lists[c]!.push(value);
            });
          },
        };
  const levels_V = levelsOf(scenario.limits, scenario.nominal_V);
  const streamed = ['A.S1.voltage_V'];
  const result = simulate(assemble(scenario), makeDemand(scenario), {
    levels_V,
    kernel,
    waveforms: waveforms === undefined ? [] : [waveforms],
    streamed,
  });
  return { time_s, columns, result };
}

/** Times of all rows, and the last of them. */
class Rows {
  readonly time_s: number[] = [];
  last: readonly number[] = [];
  readonly take = (t: number, values: Float64Array): void => {
    this.time_s.push(t);
    this.last = [...values];
  };
}

const everyStep: Pace = { kind: 'every-step' };

describe('rows at every step', () => {
  const { time_s, columns, result } = taken(everyStep);

  it('are one for the start and one for each step, in time order up to the end', () => {
    expect(time_s).toHaveLength(result.counters.steps + 1);
    expect(time_s[0]).toBe(0);
    expect(time_s.at(-1)).toBe(scenario.duration_s);
    expect(time_s.every((t, j) => j === 0 || t > time_s[j - 1]!)).toBe(true);
  });

  it('hold the exact extremes of every channel, when they were', () => {
    for (const { channel, min, min_s, max, max_s } of result.extremes) {
      // The firmware's first run, at 0, quantises what the trims rested at; the first row is from before it.
      if (channel.endsWith('.trim_V')) continue;
      const values = columns.get(channel)!;
      expect([channel, Math.min(...values), Math.max(...values)]).toEqual([channel, min, max]);
      expect([values[time_s.indexOf(min_s)], values[time_s.indexOf(max_s)]]).toEqual([min, max]);
    }
  });

  it('are the same bits from the plain kernel', () => {
    const plain = taken(everyStep, 'plain');
    expect(plain.time_s).toEqual(time_s);
    for (const [id, values] of plain.columns) expect([id, values]).toEqual([id, columns.get(id)]);
  });

  it('change nothing of the run', () => {
    expect(taken(null).result).toEqual(result);
  });

  it('give a feeder the power of its shelves', () => {
    const shelves = scenario.shelves.filter(({ feeder }) => feeder === 'F2');
    const sums = time_s.map((_, j) =>
      shelves.reduce((sum, { id }) => sum + columns.get(`${id}.ac_power_W`)![j]!, 0),
    );
    expect(columns.get('F2.ac_power_W')).toEqual(sums);
  });
});

describe('two orders of one run', () => {
  it('each take what they would alone', () => {
    const alone = [taken(everyStep), taken({ kind: 'rate', rate_Hz: 1000, filter: 'low-pass' })] as const;
    const [steps, even] = [new Rows(), new Rows()];
    simulate(assemble(scenario), makeDemand(scenario), {
      levels_V: new Float64Array(0),
      waveforms: [
        { series, pace: everyStep, take: steps.take },
        { series, pace: { kind: 'rate', rate_Hz: 1000, filter: 'low-pass' }, take: even.take },
      ],
    });
    expect(steps.time_s).toEqual(alone[0].time_s);
    expect(even.time_s).toEqual(alone[1].time_s);
    series.forEach(({ id }, c) => {
      expect(steps.last[c]).toBe(alone[0].columns.get(id)!.at(-1));
      expect(even.last[c]).toBe(alone[1].columns.get(id)!.at(-1));
    });
  });
});

describe('rows at a rate', () => {
  it('as means are the means that the run keeps', () => {
    const { time_s, columns, result } = taken({ kind: 'rate', rate_Hz: 100, filter: 'mean' });
    expect(time_s).toEqual(Array.from({ length: 31 }, (_, j) => (j + 0.5) / 100));
    expect(result.means.columns.size).toBeGreaterThan(17);
    for (const [id, values] of result.means.columns) expect([id, columns.get(id)]).toEqual([id, [...values]]);
  });

  it('through the low-pass are the streams that the run keeps', () => {
    const { time_s, columns, result } = taken({ kind: 'rate', rate_Hz: 1000, filter: 'low-pass' });
    expect(time_s).toHaveLength(310);
    for (const { channel, samples } of result.streams)
      expect([channel, columns.get(channel)]).toEqual([channel, [...samples]]);
  });
});
