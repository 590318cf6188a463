/** Trays: lost, stuck, full, mistaken or old. */
import { expect } from 'vitest';
import { countOf } from '../../engine/runs.ts';
import { type Faulted, healthy, lastOf } from '../fault-runs.ts';
import { above, ac_W, asleep, near, swing } from '../readings.ts';
import { type FaultRow, held, pulses, row } from './row.ts';

const capacitorRms_A = ({ result }: Faulted): number =>
  result.meanSquares.find(({ channel }) => channel === 'T1.capacitor_current_A')!.rms;

export const trayFaults: readonly FaultRow[] = [
  row(
    '11a',
    'a tray off: the rest work a ninth harder',
    'pulse-train',
    pulses,
    ['tray-out T3 at 0 s'],
    'degraded',
    (run) => {
      near(capacitorRms_A(run) / capacitorRms_A(healthy('pulse-train', pulses)), 10 / 9, 0.02);
      asleep(run);
    },
  ),
  row(
    '11b',
    'a tray stuck charging: 20 kW of phantom load until it is full',
    'pulse-train',
    pulses,
    ['tray-stuck T3 to -20 kW at 0.5 s'],
    'degraded',
    (run) => {
      expect(lastOf(run, 'T3.charge_ratio')).toBeGreaterThan(0.9);
      near(ac_W(run).max - ac_W(healthy('pulse-train', pulses)).max, 24e3, 6e3);
    },
  ),
  row(
    '12',
    'trays at their limit at the wrong moment: the source sees the raw step',
    'single-step',
    { 'load.before': '31 kW', 'load.after': '240 kW' },
    [],
    'recovered',
    (run) => {
      // 209 kW of step over 200 kW of trays less what they hold back.
      expect(countOf(run.result, 'tray-full')).toBeGreaterThan(0);
      above(run, 47.5);
      asleep(run);
    },
  ),
  row(
    '14',
    'a charge sensor 5 % off: that tray alone drifts',
    'pulse-train',
    { ...held, duration: '6 s' },
    ['charge-shift T3 by 5 % at 0.5 s'],
    'degraded',
    (run) => {
      expect(Math.abs(lastOf(run, 'T3.charge_ratio') - lastOf(run, 'T4.charge_ratio'))).toBeGreaterThan(2e-3);
      asleep(run);
    },
  ),
  row(
    '15',
    'old capacitors: the window swings a quarter wider',
    'end-of-life',
    pulses,
    [],
    'steady',
    (run) => {
      const newer = healthy('end-of-life', { ...pulses, 'ageing.trays': 'new', 'ageing.banks': 'new' });
      near(swing(run, 'T1.charge_ratio') / swing(newer, 'T1.charge_ratio'), 1.25, 0.06);
    },
  ),
];
