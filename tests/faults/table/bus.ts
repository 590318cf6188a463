/** The bus: banks, bars and joints. */
import { expect } from 'vitest';
import { busOf } from '../../engine/runs.ts';
import { lastOf, rangeOf } from '../fault-runs.ts';
import { above, asleep, near } from '../readings.ts';
import { type FaultRow, held, pulses, row } from './row.ts';

export const busFaults: readonly FaultRow[] = [
  row(
    '16',
    'a bank open: the dip of a step grows, by much less than the bank was of the bus',
    'single-step',
    {},
    ['bank-out K1 at 0 s'],
    'degraded',
    (run) => {
      above(run, 48.3);
      expect(busOf(run.result).min).toBeLessThan(48.65);
      asleep(run);
    },
  ),
  row(
    '17',
    'a bank shorted: the bus is dead',
    'pulse-train',
    held,
    ['bank-short K1 at 0.5 s'],
    'collapsed',
    (run) => {
      expect(run.result.status).toBe('collapsed');
      near(run.result.failure!.time_s, 0.5, 5e-3);
    },
  ),
  row(
    '21',
    'both link bars of a section out: the other section carries it',
    'pulse-train',
    pulses,
    ['bar-out LA1 at 0 s', 'bar-out LA2 at 0 s'],
    'degraded',
    (run) => {
      expect(lastOf(run, 'LA1.current_A')).toBe(0);
      expect(rangeOf(run, 'LB1.current_A').max).toBeGreaterThan(1500);
      above(run, 48);
    },
  ),
  row(
    '22',
    'a joint of a link bar ages to 110 µΩ: its current moves to the other bar of the section',
    'pulse-train',
    held,
    ['joint-aged LA1 to 110 uohm over 0.5 s at 0.5 s'],
    'degraded',
    (run) => {
      expect(lastOf(run, 'LA1.current_A')).toBeLessThan(0.7 * rangeOf(run, 'LA1.current_A').max);
      asleep(run);
    },
  ),
];
