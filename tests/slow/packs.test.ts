/** Charge of packs over an hour: counted, at constant voltage, at rest. */
import { expect, it } from 'vitest';
import { marchStretch } from '../../src/slow/course.ts';
import type { Drive } from '../../src/slow/drive.ts';
import { PackCharge } from '../../src/slow/pack-charge.ts';
import { SlowCabinet } from '../../src/slow/slow-cabinet.ts';
import { slowStart } from '../../src/slow/slow-states.ts';
import { readShipped } from '../scenario/shipped.ts';

const { scenario } = readShipped('scenarios/pulse-train.yaml', [], {
  changes: [
    { path: 'batteries.charge', value: '30 %' },
    { path: 'batteries.self_discharge', value: '2400 h' },
  ],
});

const drive = (power_W: number): Drive => ({
  ...{ bars: [], trays: [], banks: [] },
  batteries: scenario.batteries.map(({ id }) => ({ id, power_W })),
});

it('counts the charge that a power moves: energy over the mean open-circuit voltage, losses on top', () => {
  const cabinet = new SlowCabinet(scenario, { resting: drive(30e3), charging: null });
  const { states } = marchStretch(cabinet, slowStart(scenario, drive(0), 'cold'), 0, 60);
  const z = states.packs.get('B1')!.charge_ratio;
  // 30 kW/0.96 for 60 s at about OCV − R i = 47.5 V − 2 mΩ · 680 A; Q = 5 kWh/48 V.
  const i = 30e3 / 0.96 / (47.5 - 0.002 * 680);
  expect(0.3 - z).toBeCloseTo((i * 60) / ((5 * 3.6e6) / 47.9), 2);
});

it('charges at granted power, then as the voltage lets in, and is full where the firmware says so', () => {
  const drives = { resting: drive(0), charging: drive(-2500) };
  const course = marchStretch(
    new SlowCabinet(scenario, drives),
    slowStart(scenario, drive(0), 'cold'),
    0,
    2.5 * 3600,
  );
  const full = course.moments.find(({ what, who }) => what === 'full' && who === 'B1')!;
  // 70 % of 5 kWh at 2.5 kW · 0.96, 300 s of waiting before it, and some more at constant voltage.
  const least_s = 300 + (0.7 * 5 * 3.6e6) / (2500 * 0.96);
  expect(full.took_s).toBeGreaterThan(least_s);
  expect(full.took_s).toBeLessThan(1.1 * least_s);
  const charge = new PackCharge(scenario);
  // What is then missing is what the end current leaves: I_end R over the slope of the open-circuit voltage.
  expect(charge.isFull(0, 0.98)).toBe(false);
  expect(charge.isFull(0, 0.9999)).toBe(true);
});

it('takes less at full voltage than it is granted, and nothing where it is too cold', () => {
  const charge = new PackCharge(scenario);
  expect(charge.taken_W(0, 0.5, 25, 2500)).toBe(2500);
  expect(charge.taken_W(0, 0.5, 25, 1000)).toBe(1000);
  expect(charge.taken_W(0, 0.9995, 25, 2500)).toBeLessThan(2500);
  expect(charge.taken_W(0, 0.5, 5, 2500)).toBeCloseTo(1250, 9);
  expect(charge.taken_W(0, 0.5, -5, 2500)).toBe(0);
});

it('loses its charge at rest with the stated time constant', () => {
  const cabinet = new SlowCabinet(scenario, { resting: drive(0), charging: null });
  const { states } = marchStretch(cabinet, slowStart(scenario, drive(0), 'cold'), 0, 240 * 3600);
  expect(states.packs.get('B1')!.charge_ratio).toBeCloseTo(0.3 * Math.exp(-0.1), 9);
});

it('is empty while it carries where the firmware would end it, and says when', () => {
  const cabinet = new SlowCabinet(scenario, { resting: drive(50e3), charging: null });
  const { moments } = marchStretch(cabinet, slowStart(scenario, drive(0), 'cold'), 0, 600);
  expect(moments.map(({ what }) => what)).toContain('empty');
  // 30 % of 5 kWh less the reserve, at 52 kW of the packs: a minute and a half.
  expect(moments[0]!.at_s).toBeGreaterThan(60);
  expect(moments[0]!.at_s).toBeLessThan(110);
});
