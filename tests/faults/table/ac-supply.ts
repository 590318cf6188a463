/** Feeders, phases and the signal that tells of them. */
import { expect } from 'vitest';
import { busOf, countOf } from '../../engine/runs.ts';
import { lastOf } from '../fault-runs.ts';
import { above, ac_W, asleep, lit, near, said, swing } from '../readings.ts';
import { type FaultRow, held, pulses, row } from './row.ts';

export const acSupplyFaults: readonly FaultRow[] = [
  row(
    '4',
    'a feeder lost: its shelves hold up 20 ms and more, batteries take over, the other feeder stays in its rating',
    'pulse-train',
    held,
    ['ac-loss F1 at 0.5 s'],
    'degraded',
    (run) => {
      expect(said(run, 'dc-stop')).toBeGreaterThan(0.52);
      expect(countOf(run.result, 'battery-carry')).toBe(5);
      expect(ac_W(run).max).toBeLessThan(4 * 39.6e3 + 60e3);
      above(run, 49);
    },
  ),
  row(
    '5',
    'all AC lost: batteries carry within 2 ms of the signal, trays stand still',
    'pulse-train',
    held,
    ['ac-loss all at 0.5 s'],
    'degraded',
    (run) => {
      expect(said(run, 'battery-carry') - said(run, 'ac-signal')).toBeLessThan(2.2e-3);
      expect(said(run, 'tray-stop')).toBe(said(run, 'ac-signal'));
      above(run, 48.5);
    },
  ),
  row(
    '6',
    'all AC lost and nobody is told: batteries start by the bus alone, too late for 200 kW',
    'pulse-train',
    held,
    ['signal-lost ac at 0 s', 'ac-loss all at 0.5 s'],
    'collapsed',
    (run) => {
      expect(countOf(run.result, 'battery-start')).toBe(5);
      // Not before the bulk is empty: C_b (V1² − V2²)/(2 p) of 22.5 mF from 420 V to 330 V at 25.6 kW is 29.6 ms.
      near(said(run, 'battery-start'), 0.53, 6e-3);
    },
  ),
  row(
    '7',
    'AC returns: staggered walk-in, hand-back, no second start',
    'ac-loss-and-return',
    {},
    [],
    'recovered',
    (run) => {
      expect(countOf(run.result, 'battery-start')).toBe(5);
      expect(countOf(run.result, 'battery-sleep')).toBe(5);
      above(run, 48.5);
    },
  ),
  row(
    '8',
    'a sag to 70 % for half a second at part load: nothing reaches the DC side',
    'pulse-train',
    held,
    ['ac-sag all to 70 % for 0.5 s at 0.5 s'],
    'recovered',
    (run) => {
      // 200 kW are 25.9 kW a shelf, 70 % of 39.6 kW are 27.7 kW: the input stage still gives it.
      near(busOf(run.result).min, 49.7, 0.05);
      asleep(run);
    },
  ),
  row(
    '9',
    'AC lost again during walk-in: the batteries are still there',
    'ac-loss-and-return',
    { duration: '12 s' },
    ['ac-loss all at 7 s'],
    'degraded',
    (run) => {
      lit(run);
      above(run, 48.5);
      expect(lastOf(run, 'total.ac_power_W')).toBe(0);
    },
  ),
  row(
    '10',
    'a soft source: the cabinet draws the same, the trays keep its pulsing small',
    'pulse-train',
    { ...pulses, 'feeders.short_circuit_power': '1 MVA' },
    [],
    'steady',
    (run) => {
      expect(swing(run, 'total.ac_power_W') / ac_W(run).min).toBeLessThan(0.1);
    },
  ),
  row(
    '31',
    'a phase lost on one feeder at part load: two thirds of its modules are enough',
    'pulse-train',
    held,
    ['phase-loss F1 at 0.5 s'],
    'degraded',
    (run) => {
      // 25.9 kW a shelf against two thirds of 39.6 kW, 26.4 kW.
      above(run, 49.6);
      asleep(run);
    },
  ),
];
