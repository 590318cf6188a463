/**
 * Loops that grow slowly, or hardly die, through the trays' samples: steps in quiet are long and damped pairs follow trims, and
 * neither may hide a swing or keep one alive. Shelves that lag make the trays swing at 320 Hz, in linear terms dying by e in 0.1 s
 * (0.62 ms), growing by e in 40 and 13 ms (0.65 and 0.7 ms); with a sample three periods old at 520 Hz, by e in 11 ms.
 */
import { expect, it } from 'vitest';
import { run } from '../../src/run.ts';
import { type Changes, shippedWith } from './runs.ts';

const still: Changes = { 'load.power': '200 kW' };
const old: Changes = { 'firmware.smoothing.latency': '1.5 ms' };
const untrimmed: Changes = { 'firmware.share.trim_quantum': '0 V' };

it.each<readonly [lag: string, scenario: string, changes: Changes, outcome: 'steady' | 'oscillating']>([
  ['0.62 ms', 'idle', { ...still, duration: '2 s' }, 'steady'],
  ['0.65 ms', 'idle', { ...still, duration: '2 s' }, 'oscillating'],
  ['0.65 ms', 'pulse-train', { duration: '1.6 s' }, 'oscillating'],
  ['0.7 ms', 'idle', { ...still, duration: '1 s' }, 'oscillating'],
  ['0.4 ms', 'idle', { ...still, ...old, ...untrimmed, duration: '0.6 s' }, 'oscillating'],
  ['0.4 ms', 'idle', { ...still, ...old, duration: '0.6 s' }, 'oscillating'],
])('shelves that lag by %s, %s %o: %s', (lag, scenario, changes, outcome) => {
  const { report } = run(shippedWith(scenario, { ...changes, 'shelves.current_lag': lag }), null);
  const verdictOf = (id: string) => report.findings.find((one) => one.id === id)!.verdict;
  expect(report.outcome.kind).toBe(outcome);
  expect(verdictOf('mode-damping')).toBe('fail');
  expect(verdictOf('bus-ripple')).toBe(outcome === 'steady' ? 'pass' : 'fail');
});
