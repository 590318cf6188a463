/** Battery shelves: absent, late, empty, or started without need. */
import { expect } from 'vitest';
import { countOf } from '../../engine/runs.ts';
import { above, asleep, lit, said } from '../readings.ts';
import { type FaultRow, held, pulses, row } from './row.ts';

export const batteryFaults: readonly FaultRow[] = [
  row(
    '18a',
    'a battery shelf that does not start: four carry',
    'pulse-train',
    held,
    ['battery-fail B1 at 0 s', 'ac-loss all at 0.5 s'],
    'tripped',
    (run) => {
      expect(countOf(run.result, 'battery-carry')).toBe(4);
      lit(run);
      // Four carry for five, at gains that bear the stage delay: within the envelope while batteries carry.
      above(run, 47.5);
    },
  ),
  row(
    '18b',
    'battery shelves 50 ms late: longer than the bulk holds',
    'pulse-train',
    held,
    ['battery-late all by 50 ms at 0 s', 'ac-loss all at 0.5 s'],
    'collapsed',
    (run) => {
      expect(said(run, 'sled-cut-off')).toBeGreaterThan(0.525);
    },
  ),
  row('19', 'no false start under pulses', 'pulse-train', pulses, [], 'steady', asleep),
  row(
    '20',
    'batteries empty before AC is back: a controlled brake keeps the sleds on',
    'braked-empty',
    {},
    [],
    'recovered',
    (run) => {
      lit(run);
      expect(countOf(run.result, 'brake-on')).toBe(1);
    },
  ),
];
