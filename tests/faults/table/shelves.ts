/** Shelves, their modules, sensors and set points. */
import { expect } from 'vitest';
import { countOf } from '../../engine/runs.ts';
import { healthy, lastOf, rangeOf } from '../fault-runs.ts';
import { above, asleep, lit, near, said } from '../readings.ts';
import { type FaultRow, held, row } from './row.ts';

/** Without what trims are rounded to: at any one instant their quantum moves a shelf by two per cent and more. */
const smooth = { ...held, 'firmware.share.trim_quantum': '0 V' } as const;

export const shelfFaults: readonly FaultRow[] = [
  row(
    '1',
    'a module off: the shelf takes 4/5 of its current, no battery starts',
    'pulse-train',
    smooth,
    ['module-out S3 count 1 at 0.5 s'],
    'degraded',
    (run) => {
      // Per unit all shelves share alike: 39 modules are left of 40.
      near(lastOf(run, 'S3.current_A') / lastOf(run, 'S4.current_A'), 0.8, 0.02);
      asleep(run);
      above(run, 49.5);
    },
  ),
  row(
    '2',
    'a shelf trips: the others take an eighth more',
    'pulse-train',
    held,
    ['shelf-trip S3 at 0.5 s'],
    'degraded',
    (run) => {
      near(lastOf(run, 'S4.current_A') / lastOf(healthy('pulse-train', held), 'S4.current_A'), 8 / 7, 0.03);
      asleep(run);
      above(run, 49);
    },
  ),
  row(
    '3',
    'two shelves trip at 240 kW: six hold it for a while, then batteries assist',
    'pulse-train',
    { ...held, 'load.low': '240 kW', 'load.high': '240 kW' },
    ['shelf-trip S3 at 0.5 s', 'shelf-trip S7 at 0.6 s'],
    'degraded',
    (run) => {
      expect(said(run, 'limit-on')).toBeGreaterThan(0.6);
      expect(countOf(run.result, 'battery-start')).toBe(5);
      lit(run);
    },
  ),
  row(
    '25',
    'a set point 1 % high: the shelf takes load up to its limit',
    'pulse-train',
    held,
    ['set-point-shift S3 by 1 % at 0.5 s'],
    'degraded',
    (run) => {
      expect(rangeOf(run, 'S3.current_A').max).toBeGreaterThan(850);
      near(rangeOf(run, 'S3.current_A').max, 864, 10);
      asleep(run);
    },
  ),
  row(
    '26',
    'coolant lost, half the power left: batteries make up what the shelves lack',
    'pulse-train',
    held,
    ['coolant-loss all to 50 % over 1 s at 0.5 s'],
    'degraded',
    (run) => {
      // 8 × 36 kW halved are 144 kW of 200 kW.
      near(lastOf(run, 'total.ac_power_W'), 148e3, 6e3);
      expect(countOf(run.result, 'battery-start')).toBe(5);
      lit(run);
    },
  ),
  row(
    '32',
    'a shelf fed backwards: it is a load of 100 A, and is told',
    'pulse-train',
    held,
    ['reverse-feed S3 to 100 A at 0.5 s'],
    'degraded',
    (run) => {
      near(lastOf(run, 'S3.current_A'), -100, 0.1);
      expect(countOf(run.result, 'current-reversal')).toBe(1);
      asleep(run);
    },
  ),
];
