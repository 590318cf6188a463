/** A value that more of the load could only make worse, and that lies beyond its limit already, fails. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Report } from '../../src/analysis/judge/report.ts';
import { plainReading, readRecorded } from '../../src/loads/recorded/read-recorded.ts';
import { run } from '../../src/run.ts';
import { readScenario } from '../../src/scenario/read.ts';
import type { Changes } from '../engine/runs.ts';
import { attacked, findingOf } from './attacked.ts';

/** A load that climbs from 40 to 200 kW in 10 s and comes down again, read 7 times a second: some 3 Hz are known of it. */
function replayed(changes: Changes): Report {
  const power_W = (t: number): number => 2500 + 10_000 * (1 - Math.abs(t / 10 - 1));
  const rows = Array.from({ length: 141 }, (_, k) => `${k / 7},${power_W(k / 7).toFixed(1)}`);
  const text = `t_s,power_W\n${rows.join('\n')}\n`;
  const recorded = readRecorded(
    text,
    { file: 'three.csv', sha256: 'sum' },
    { ...plainReading, at: 'sled', copies: 16 },
  );
  const { scenario } = readScenario('scenarios/idle.yaml', {
    files: (path) => ({ text: path === 'three.csv' ? text : readFileSync(path, 'utf8'), sha256: 'sum' }),
    recorded: {
      file: 'three.csv',
      to: '20 s',
      'reading.at': 'sled',
      'reading.side': 'dc',
      'reading.copies': '16',
    },
    changes: [
      { path: 'duration', value: '20 s' },
      ...Object.entries(changes).map(([path, value]) => ({ path, value })),
    ],
  });
  return run(scenario, recorded).report;
}

describe('a recording of 3 Hz', () => {
  const report = replayed({
    'limits.shelf-peak.normal': '40 %',
    'limits.voltage-change-max.normal': '0.1 %',
  });

  it('shows little of what these limits ask for', () => {
    expect(report.load.bandwidth_Hz!).toBeLessThan(4);
  });

  it.each(['ac-range-10s', 'shelf-peak', 'voltage-change-max'])(
    'fails %s, beyond which its own replay lies: more could only be worse',
    (id) => {
      const { verdict, reason } = findingOf(report, id);
      expect([verdict, reason]).toEqual([
        'fail',
        expect.stringMatching(/needs content up to .*more could only be worse/),
      ]);
    },
  );

  it('passes none of them where the replay stays inside', () => {
    expect(findingOf(report, 'bus-floor').verdict).toBe('inconclusive');
    expect(findingOf(report, 'ac-tone-7-100').verdict).toBe('inconclusive');
  });
});

describe('a limit that was removed', () => {
  it.each(['ac-ripple-0.5-3', 'share-steady-high', 'bus-steady-low'])('leaves %s open', (id) => {
    const { report } = attacked('mirror', {
      changes: { duration: '3.2 s', [`limits.${id}.normal`]: 'none' },
    });
    expect(findingOf(report, id, 'normal')).toMatchObject({ verdict: 'inconclusive', limit: null });
    expect(report.verdict).toBe('pass_with_conditions');
  });

  it('in every column is inconclusive, and the basis makes a condition of it', () => {
    const { report } = attacked('idle', {
      changes: {
        duration: '2 s',
        'limits.bus-steady-low.normal': 'none',
        'limits.bus-steady-low.carry': 'none',
        'limits.bus-steady-low.degraded': 'none',
      },
    });
    expect(findingOf(report, 'bus-steady-low').verdict).toBe('inconclusive');
    expect(report.verdict).toBe('pass_with_conditions');
  });
});
