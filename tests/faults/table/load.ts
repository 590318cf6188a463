/** The load: where it is, how fast it pulses, sleds that short or restart. */
import { expect } from 'vitest';
import { countOf } from '../../engine/runs.ts';
import { above, asleep, swing } from '../readings.ts';
import { type FaultRow, pulses, row } from './row.ts';

export const loadFaults: readonly FaultRow[] = [
  row(
    '23',
    'all load at one end: the worst sled 0.05 to 0.2 V lower',
    'uneven-load',
    {},
    [],
    'steady',
    (run) => {
      asleep(run);
      above(run, 49.7);
    },
  ),
  row(
    '27',
    'a short at a sled until its fuse clears: the sled is lost, the others are dark for a second and come back',
    'sled-short',
    {},
    [],
    'collapsed',
    (run) => {
      expect(countOf(run.result, 'sled-cut-off')).toBe(countOf(run.result, 'sled-restart'));
    },
  ),
  row(
    '28',
    'mass restart: every sled dark once, none a second time',
    'mass-restart',
    {},
    [],
    'collapsed',
    (run) => {
      expect(countOf(run.result, 'sled-cut-off')).toBe(16);
      expect(countOf(run.result, 'sled-restart')).toBe(16);
    },
  ),
  row(
    '33',
    'pulses at half the power loop, 5 Hz: no battery, the trays carry them',
    'pulse-train',
    { ...pulses, 'load.period': '0.2 s', 'load.duty': '50 %' },
    [],
    'steady',
    (run) => {
      expect(swing(run, 'total.ac_power_W')).toBeLessThan(0.2 * 140e3);
      asleep(run);
    },
  ),
];
