/** The share line of the shelves and what is told over it. */
import { expect } from 'vitest';
import { type Faulted, healthy, lastOf, rangeOf } from '../fault-runs.ts';
import { above, near, swing } from '../readings.ts';
import { type FaultRow, longer, row } from './row.ts';

export const shareFaults: readonly FaultRow[] = [
  row(
    '24a',
    'the share line short to ground: every trim runs to its clamp, which holds',
    'pulse-train',
    longer,
    ['signal-stuck share to 0 at 0.5 s'],
    'degraded',
    (run) => {
      expect(rangeOf(run, 'S4.trim_V').min).toBeGreaterThan(-1.0001);
      above(run, 48.5);
    },
  ),
  row(
    '24b',
    'one sensor 10 % high: its shelf gives an eleventh less than the others, which carry what it leaves',
    'pulse-train',
    longer,
    ['sensor-shift S3 by 10 % at 0.5 s'],
    'degraded',
    (run) => {
      // All report alike: b = a/1.1, and 7 a + b is what eight even shelves gave.
      const sum = (one: Faulted): number =>
        Array.from({ length: 8 }, (_, k) => lastOf(one, `S${k + 1}.current_A`)).reduce((a, b) => a + b);
      const lying_A = lastOf(run, 'S3.current_A');
      const others_A = (sum(run) - lying_A) / 7;
      near(lying_A / others_A, 1 / 1.1, 5e-3);
      near(others_A / (sum(healthy('pulse-train', longer)) / 8), 8 / (7 + 1 / 1.1), 2e-3);
    },
  ),
  row(
    '29',
    'share frames up to 50 ms late: still shares, hunting little',
    'pulse-train',
    longer,
    ['signal-jitter share by 50 ms at 0.5 s'],
    'degraded',
    (run) => {
      expect(swing(run, 'S3.current_A')).toBeLessThan(0.05 * 720);
    },
  ),
  row(
    '30',
    'one shelf on droop alone: no harm',
    'pulse-train',
    longer,
    ['share-out S3 at 0.5 s'],
    'degraded',
    (run) => {
      near(lastOf(run, 'S3.current_A') / lastOf(run, 'S4.current_A'), 1, 0.05);
    },
  ),
];
