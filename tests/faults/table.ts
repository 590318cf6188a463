/**
 * The fault list of the trade, row by row (common practice, no source): what is injected and what must come of it,
 * stated in words and held in numbers that were reckoned by hand beforehand where they can be.
 */
import { expect } from 'vitest';
import type { OutcomeKind } from '../../src/analysis/judge/outcome.ts';
import { busOf, countOf } from '../engine/runs.ts';
import { type Faulted, healthy, lastOf, rangeOf } from './fault-runs.ts';

export interface FaultRow {
  readonly n: string;
  readonly what: string;
  readonly base: string;
  readonly changes: Readonly<Record<string, string>>;
  readonly happens: readonly string[];
  readonly kind: OutcomeKind;
  readonly check: (run: Faulted) => void;
}

/** 200 kW held: what happens then is the fault's own. */
const held = { start: 'settled', duration: '2 s', 'load.low': '200 kW', 'load.high': '200 kW' } as const;
const longer = { ...held, duration: '4 s' } as const;
const pulses = { duration: '3.2 s' } as const;

const asleep = ({ result }: Faulted): void => expect(countOf(result, 'battery-start')).toBe(0);
const lit = ({ result }: Faulted): void => expect(countOf(result, 'sled-cut-off')).toBe(0);
const above = ({ result }: Faulted, bus_V: number): void => expect(busOf(result).min).toBeGreaterThan(bus_V);
const near = (value: number, wanted: number, within: number): void =>
  expect(Math.abs(value - wanted)).toBeLessThan(within);
const said = ({ result }: Faulted, kind: string): number =>
  result.log.find(({ what }) => what === kind)?.time_s ?? Number.NaN;
const ac_W = (run: Faulted): { readonly min: number; readonly max: number } =>
  rangeOf(run, 'total.ac_power_W');
const capacitorRms_A = ({ result }: Faulted): number =>
  result.meanSquares.find(({ channel }) => channel === 'T1.capacitor_current_A')!.rms;
const swing = (run: Faulted, channel: string): number => {
  const { min, max } = rangeOf(run, channel);
  return max - min;
};

const row = (
  n: string,
  what: string,
  base: string,
  changes: FaultRow['changes'],
  happens: readonly string[],
  kind: OutcomeKind,
  check: FaultRow['check'],
): FaultRow => ({ n, what, base, changes, happens, kind, check });

export const faultTable: readonly FaultRow[] = [
  row(
    '1',
    'a module off: the shelf takes 4/5 of its current, no battery starts',
    'pulse-train',
    held,
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
  row(
    '34',
    'old, a shelf out, a tray out and a link bar out, all under pulses',
    'end-of-life',
    pulses,
    ['shelf-trip S3 at 0.5 s', 'bar-out LA1 at 0.5 s', 'tray-out T3 at 0.5 s'],
    'degraded',
    (run) => {
      asleep(run);
      lit(run);
      above(run, 48.5);
    },
  ),
];
