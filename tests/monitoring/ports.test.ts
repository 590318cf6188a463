/** Ports of a scenario: refused with their arithmetic, and told by a run that they leave as it is. */
import { describe, expect, it } from 'vitest';
import { reportShape } from '../../src/bundle/report-shape.ts';
import { run } from '../../src/run.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';
import { shippedWith } from '../engine/runs.ts';
import { messageOf, type Swap } from '../scenario/shipped.ts';

const file = 'scenarios/polled.yaml';

const refused = (...swaps: readonly Swap[]): string => messageOf(swaps, {}, file);

describe('a port is refused', () => {
  it('with more devices of a kind than it serves', () => {
    const said = refused([
      file,
      '    polls: [T1, T2, T3, T4, T5]',
      '    polls: [T1, T2, T3, T4, T5, T6]\n    most_of_a_kind: 5',
    ]);
    expect(said).toContain('found     6 trays on port trays-A');
    expect(said).toContain('expected  at most 5 of a kind on it (most_of_a_kind)');
    expect(said).toContain('mend      move T6 to another port');
  });

  it('where a round takes longer than the period, with the arithmetic', () => {
    const said = refused([file, '    answer_delay: 35 ms', '    answer_delay: 60 ms']);
    expect(said).toContain('found     8 devices of 140.2 ms each: a round of 1.122 s');
    expect(said).toContain('expected  a round within the period of 1 s, which has time for 7');
  });

  it('with a device that is not there, twice there, or none, all at once', () => {
    const said = refused(
      [file, 'polls: [S1, S2, S3', 'polls: [S1, S1, S33'],
      [file, 'polls: [T1, T2, T3, T4, T5]', 'polls: []'],
    );
    expect(said).toContain('found     S1 a second time');
    expect(said).toContain('found     device S33');
    expect(said).toContain('found     no device');
    expect(said).toContain('3 problems');
  });
});

describe('a run with ports', () => {
  const short = { duration: '1.3 s', start: 'settled', 'monitoring.shelves.period': '1 s' };
  const without = ({ monitoring: _ports, ...rest }: Scenario): Scenario => rest;

  it('is the same run bit for bit, and tells each device at its own turn', () => {
    const scenario = shippedWith('polled', short);
    const polled = run(scenario, null);
    const plain = run(without(scenario), null);
    const { monitoring, ...report } = polled.report;
    expect(report).toEqual(plain.report);
    expect(polled.result.recording).toEqual(plain.result.recording);
    const [shelves, , means] = monitoring!.ports;
    expect(shelves!.beat).toEqual({
      load_period_s: expect.closeTo(0.8, 9),
      apparent_period_s: expect.closeTo(4, 9),
      passed_over_count: 1,
    });
    expect(shelves!.channels.map(({ channel }) => channel).slice(0, 3)).toEqual([
      'A.S1.voltage_V',
      'S1.current_A',
      'S1.ac_power_W',
    ]);
    const turn = (k: number): number => shelves!.channels[3 * k]!.time_s[0]!;
    expect(turn(7) - turn(0)).toBeCloseTo(7 * shelves!.device_s, 12);
    for (const { channel, seen, truth } of shelves!.channels) {
      expect(seen!.min, channel).toBeGreaterThanOrEqual(truth.min);
      expect(seen!.max, channel).toBeLessThanOrEqual(truth.max);
      const { channels, min, max } = polled.result.recording;
      const c = channels.findIndex(({ id }) => id === channel);
      expect(Math.fround(truth.min), channel).toBe(min[c]!.reduce((a, b) => Math.min(a, b)));
      expect(Math.fround(truth.max), channel).toBe(max[c]!.reduce((a, b) => Math.max(a, b)));
    }
    expect(means!.channels[0]!.readings.length).toBeLessThan(shelves!.channels[0]!.readings.length);
    expect(reportShape(JSON.parse(JSON.stringify(polled.report)), '').monitoring).toEqual(monitoring);
  });
});
