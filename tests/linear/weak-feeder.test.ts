/**
 * The linear model of a cabinet on a feeder that gives way: the line acts on the cabinet through limits alone, so while no
 * shelf is held back all modes are those of a stiff line.
 */
import { expect, it } from 'vitest';
import { run } from '../../src/run.ts';
import { weakFeeder } from '../engine/weak-feeder.ts';

it('has the modes of a stiff line while no shelf is held back', () => {
  const [weak, stiff] = ['1', '0'].map((share) => {
    const load = '{ kind: constant, power: 12 kW }';
    const changes = { 'feeders.gives_way': share };
    const { report } = run(weakFeeder(5, { load, duration: '60 ms', changes }), null);
    return report.stability;
  });
  expect(weak!.points.length).toBeGreaterThan(0);
  expect(weak!.worst!.mode).not.toBeNull();
  expect(weak!.worst!.mode!.damping_ratio).toBeCloseTo(stiff!.worst!.mode!.damping_ratio, 9);
  expect(weak!.worst!.mode!.frequency_Hz).toBeCloseTo(stiff!.worst!.mode!.frequency_Hz, 6);
});
