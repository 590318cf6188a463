// Source: the transfer function of a moving average over T is sinc(fT) = sin(πfT)/(πfT), textbook signal theory
// (A. V. Oppenheim, R. W. Schafer, Discrete-Time Signal Processing, the moving average). Exact: an average of a sine,
// taken here by its own integral, must have that amplitude to rounding; tolerance 1e-9.

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { boxcarGain } from '../../src/loads/recorded/bandwidth.ts';
import { plainReading, readRecorded } from '../../src/loads/recorded/read-recorded.ts';
import { run } from '../../src/run.ts';
import { readScenario } from '../../src/scenario/read.ts';
import { published } from './published.ts';

/** Mean of cos(2πft) over (t − T/2, t + T/2). */
const mean = (f: number, t: number, T: number): number =>
  (Math.sin(2 * Math.PI * f * (t + T / 2)) - Math.sin(2 * Math.PI * f * (t - T / 2))) / (2 * Math.PI * f * T);

const gains = published({
  what: 'swing left by averaging over T',
  source: 'sinc(fT), Oppenheim and Schafer, Discrete-Time Signal Processing',
});

test.each([
  //  Hz   T, s   published where round
  [0.1, 1],
  [0.5, 1], // 2/π, 0.64
  [0.9, 1],
  [1.5, 1],
  [4.4, 0.1],
  [7, 0.1],
])('a swing of %d Hz averaged over %d s keeps sinc(fT) of its size', (f, T) => {
  let peak = 0;
  for (let t = 0; t < 1 / f; t += 1 / f / 720) peak = Math.max(peak, Math.abs(mean(f, t, T)));
  gains({ which: `${f} Hz over ${T} s`, expected: peak, found: boxcarGain(f, T), tolerance: 1e-9, scale: 1 });
});

describe('a recording of 10 Hz', () => {
  /** Iterations of 1.6 s as a meter shows them that averages over its 0.1 s; sharp as it may have been. */
  const level = (t: number): number => (((t % 1.6) + 1.6) % 1.6 < 0.5 ? 6250 : 15_000);
  const averaged = (t: number): number => {
    let sum = 0;
    for (let k = 0; k < 100; k++) sum += level(t - 0.05 + (k + 0.5) * 0.001);
    return sum / 100;
  };
  const text = `t_s,power_W\n${Array.from({ length: 201 }, (_, k) => `${k / 10},${averaged(k / 10).toFixed(1)}`).join('\n')}\n`;
  const recorded = readRecorded(
    text,
    { file: 'ten.csv', sha256: 'sum' },
    { ...plainReading, at: 'sled', copies: 16 },
  );
  const words = {
    file: 'ten.csv',
    to: '20 s',
    'reading.at': 'sled',
    'reading.side': 'dc',
    'reading.copies': '16',
  };
  const of = (edges: string) => {
    const { scenario } = readScenario('scenarios/pulse-train.yaml', {
      files: (path) => ({ text: path === 'ten.csv' ? text : readFileSync(path, 'utf8'), sha256: 'sum' }),
      recorded: { ...words, edges },
      changes: [
        { path: 'duration', value: '20 s' },
        { path: 'warm_up', value: '6 s' },
      ],
    });
    return run(scenario, recorded).report;
  };
  const report = of('both');

  test('shows up to 4.4 Hz', () => expect(report.load.bandwidth_Hz).toBeCloseTo(4.4, 9));

  test('neither passes nor fails limits on tones of 7 to 100 Hz, on 3 to 20 Hz, or on milliseconds of bus voltage', () => {
    const judged = report.findings
      .filter(({ verdict }) => verdict === 'pass' || verdict === 'fail')
      .map(({ id }) => id);
    const cannot = [
      'ac-tone-7-100',
      'ac-ripple-3-20',
      'bus-2ms-low',
      'bus-2ms-high',
      'bus-100us-low',
      'bus-100us-high',
      'bus-floor',
      'bus-ceiling',
    ];
    expect(judged.filter((id) => cannot.includes(id))).toEqual([]);
    const open = report.findings.filter(({ verdict }) => verdict === 'inconclusive').map(({ id }) => id);
    expect(open).toEqual(expect.arrayContaining(cannot));
    expect(report.verdict).not.toBe('pass');
  });

  test('carries a bracket of smooth and sharp on what it can judge', () => {
    const ripple = report.findings.find(({ id }) => id === 'ac-ripple-0.5-3')!;
    expect(ripple.bracket).toHaveLength(2);
    expect(ripple.bracket![0]).toBeGreaterThan(0);
    // Both readings hold the same energy in each sample, so what is slow agrees: within a tenth here.
    expect(Math.abs(ripple.bracket![1] / ripple.bracket![0] - 1)).toBeLessThan(0.1);
    const smooth = of('smooth').findings.find(({ id }) => id === 'ac-ripple-0.5-3')!;
    expect(ripple.bracket![0]).toBe(smooth.value);
    expect(smooth.bracket).toBeNull();
  });
});
