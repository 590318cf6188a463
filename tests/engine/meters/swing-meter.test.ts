/** The meter alone, fed by hand with what channels of the reference cabinet might do. */
import { describe, expect, it } from 'vitest';
import { channelsOf } from '../../../src/engine/gauge.ts';
import { SwingMeter } from '../../../src/engine/meters/swing-meter.ts';
import type { SustainedSwing, Swings } from '../../../src/engine/result.ts';
import { assemble } from '../../../src/network/network.ts';
import { shippedWith } from '../runs.ts';

const network = assemble(shippedWith('idle'));
const channels = channelsOf(network);
const { tick_s } = network.scenario;
const at = channels.findIndex(({ id }) => id === 'S4.current_A');

interface Feed {
  readonly until_s: number;
  /** Current of S4 [A]. */
  readonly current: (time_s: number) => number;
  /** Load of every sled [W]. */
  readonly load?: (time_s: number) => number;
  readonly edges_s?: readonly number[];
  /** Lengths of the steps, in turn [ticks]. */
  readonly steps?: readonly number[];
}

function swingsOf({ until_s, current, load, edges_s = [], steps = [20] }: Feed): Swings {
  const meter = new SwingMeter(channels, network, new Int32Array(network.sleds.count));
  const values = new Float64Array(channels.length);
  const end = Math.round(until_s / tick_s);
  const edges = edges_s.map((s) => Math.round(s / tick_s));
  meter.start(0);
  for (let tick = 0, k = 0; tick < end; k++) {
    const next = edges.find((e) => e > tick) ?? end;
    if (edges.includes(tick)) meter.edge(tick);
    tick = Math.min(tick + steps[k % steps.length]!, next, end);
    values[at] = current(tick * tick_s);
    network.sleds.demand1_W.fill(load?.(tick * tick_s) ?? 2000);
    meter.take(tick, values);
  }
  return meter.reading(end);
}

const wave = (frequency_Hz: number, size: number) => (time_s: number) =>
  300 + (size / 2) * Math.sin(2 * Math.PI * frequency_Hz * time_s);

function largest({ found }: Swings): SustainedSwing | undefined {
  return [...found].sort((a, b) => b.swing - a.swing)[0];
}

describe('the meter of sustained swings', () => {
  it('sees 10 Hz to 20 kHz, size within 2 % and frequency within 1 %', () => {
    for (const f of [10, 97, 700, 4100, 20_000]) {
      const swing = largest(swingsOf({ until_s: Math.max(0.05, 6 / f), current: wave(f, 40), steps: [5] }))!;
      expect(swing.channel).toBe('S4.current_A');
      expect(Math.abs(swing.frequency_Hz / f - 1)).toBeLessThan(0.01);
      expect(Math.abs(swing.swing / 40 - 1)).toBeLessThan(0.02);
    }
  });

  it('sees the same whatever the steps, as long as they follow the swing', () => {
    const read = (steps: readonly number[]) =>
      largest(swingsOf({ until_s: 0.1, current: wave(1000, 40), steps }))!;
    const fine = read([4]);
    for (const steps of [[100], [40, 4, 4, 4], [8, 200, 20]]) {
      const { swing, frequency_Hz } = read(steps);
      expect(Math.abs(swing / fine.swing - 1)).toBeLessThan(0.03);
      expect(Math.abs(frequency_Hz / fine.frequency_Hz - 1)).toBeLessThan(0.01);
    }
  });

  it('sees a fast swing between edges every 10 ms, one entry for all stretches, and says how long the gaps were', () => {
    const edges_s = Array.from({ length: 19 }, (_, k) => 0.01 * (k + 1));
    const { found, gaps } = swingsOf({ until_s: 0.2, current: wave(4000, 60), edges_s });
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ count: 20, driven_by: null });
    expect(found[0]!.swing).toBeCloseTo(60, 0);
    expect(gaps.longest_s).toBeCloseTo(0.01, 4);
  });

  it('sees nothing of a ring after each edge', () => {
    const edges_s = [0.02, 0.04, 0.06, 0.08];
    const current = (t: number) => {
      const since = t % 0.02;
      return 300 + 150 * Math.exp(-267 * since) * Math.sin(2 * Math.PI * 4600 * since);
    };
    const swing = largest(swingsOf({ until_s: 0.1, current, edges_s }));
    expect(swing === undefined || swing.swing < 18).toBe(true);
  });

  it('sees a slow swing through a ripple half its size, and both', () => {
    const current = (t: number) => wave(5, 60)(t) + wave(200, 20)(t);
    const found = swingsOf({ until_s: 1.5, current, steps: [200] }).found;
    const slow = found.find(({ frequency_Hz }) => frequency_Hz < 6);
    expect(slow!.swing).toBeGreaterThan(55);
    expect(slow!.frequency_Hz).toBeGreaterThan(4.75);
    expect(found.some(({ frequency_Hz }) => Math.abs(frequency_Hz - 200) < 2)).toBe(true);
  });

  it('names the load as the driver where it turns as often and by enough, and only there', () => {
    const driven = (load_W: number, f: number) =>
      largest(
        swingsOf({
          until_s: 0.5,
          current: wave(30, 40),
          load: (t) => 2000 + load_W * Math.sin(2 * Math.PI * f * t + 1),
          steps: [200],
        }),
      )?.driven_by;
    expect(driven(200, 30)).toBe('load');
    expect(driven(20, 30)).toBeNull();
    expect(driven(200, 50)).toBeNull();
  });

  it('takes no drift for a swing, however it is rippled', () => {
    const current = (t: number) => 100 + 400 * t + 8 * Math.round(25 * t);
    expect(swingsOf({ until_s: 2, current, steps: [400] }).found).toEqual([]);
  });
});
