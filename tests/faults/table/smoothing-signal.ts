/** The signal by which trays smooth. */
import { expect } from 'vitest';
import { asleep, near, said, swing } from '../readings.ts';
import { type FaultRow, pulses, row } from './row.ts';

export const smoothingFaults: readonly FaultRow[] = [
  row(
    '13a',
    "the trays' signal frozen: they hold what they gave, the source sees the pulses",
    'pulse-train',
    pulses,
    ['signal-frozen smoothing at 1 s'],
    'degraded',
    (run) => {
      expect(swing(run, 'total.ac_power_W')).toBeGreaterThan(140e3);
      asleep(run);
    },
  ),
  row(
    '13b',
    "the trays' signal three times as old: more of the pulses reaches the source",
    'pulse-train',
    pulses,
    ['signal-late smoothing by 1 ms at 1 s'],
    'degraded',
    (run) => {
      expect(swing(run, 'total.ac_power_W')).toBeGreaterThan(18e3);
      expect(swing(run, 'total.ac_power_W')).toBeLessThan(60e3);
    },
  ),
  row(
    '13c',
    "the trays' signal scaled to 80 %: a fifth of the pulses is left to the source",
    'pulse-train',
    pulses,
    ['signal-scaled smoothing to 80 % at 1 s'],
    'degraded',
    (run) => {
      expect(swing(run, 'total.ac_power_W')).toBeGreaterThan(0.2 * 140e3);
      asleep(run);
    },
  ),
  row(
    '13d',
    "the trays' signal inverted: positive feedback, every sled is dark within 10 ms",
    'pulse-train',
    pulses,
    ['signal-scaled smoothing to -100 % at 1 s'],
    'collapsed',
    (run) => {
      near(said(run, 'sled-cut-off'), 1.005, 5e-3);
    },
  ),
];
