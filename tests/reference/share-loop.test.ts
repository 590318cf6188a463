/**
 * The share task on a bare plant against its own recurrence: with n_d whole periods of latency and g = T_s/τ,
 * z^n_d (z − 1) + g = 0. The plant: a shelf's current follows its trim at once, dI/du = 1/(R_d + R_line).
 *
 * Values: largest root of that polynomial, four digits. Tolerance 5e-3 on the factor by which an error shrinks
 * per period, read over forty periods (a pair of complex roots beats, so it is the fit of a straight line).
 */
import { describe, expect, it } from 'vitest';
import { Share } from '../../src/firmware/share.ts';
import { assemble } from '../../src/network/network.ts';
import { shippedWith } from '../engine/runs.ts';

/** Factor per period by which a difference between shelves shrinks (or grows). */
function radius(period_ms: number, periodsLate: number, tau_s: number): number {
  const scenario = shippedWith('idle', {
    'firmware.share.period': `${period_ms} ms`,
    'firmware.share.latency': `${period_ms * periodsLate} ms`,
    'firmware.share.time_constant': `${tau_s} s`,
    'firmware.share.leak_time': '1000000 s',
    'firmware.share.dead_band': '0 %',
    'firmware.share.trim_quantum': '0 V',
    'firmware.share.trim_limit': '100 V',
  });
  const { stages, intakes, stateCount, nodeCount } = assemble(scenario);
  const x = new Float64Array(stateCount);
  const v = new Float64Array(nodeCount).fill(50);
  for (let k = 0; k < intakes.count; k++) {
    x[intakes.offset + 3 * intakes.count + k] = intakes.columns.limit_W[k]!;
  }
  const share = new Share(scenario.firmware.share, scenario.tick_s, stages, intakes, { x, v });
  const slope = 1 / (stages.columns.droop_ohm[0]! + scenario.firmware.share.path_resistance_ohm);
  const offset = [4, -4, 0, 0, 0, 0, 0, 0];
  const currents = (): void => {
    for (let k = 0; k < intakes.count; k++)
      x[stages.offset + k] = 400 + offset[k]! + slope * stages.trim_V[k]!;
  };
  currents();
  share.signal.settle();
  const logs: number[] = [];
  for (let n = 0; n < 80; n++) {
    share.signal.sample();
    share.run();
    currents();
    logs.push(Math.log(Math.abs(x[stages.offset]! - 400)));
  }
  // Envelope: the largest value from each period on looks over a beat.
  const from = 20;
  const to = 60;
  const high = (n: number): number => Math.max(...logs.slice(n, n + 12));
  let sumT = 0;
  let sumY = 0;
  let sumTT = 0;
  let sumTY = 0;
  for (let n = from; n < to; n++) {
    sumT += n;
    sumY += high(n);
    sumTT += n * n;
    sumTY += n * high(n);
  }
  const count = to - from;
  return Math.exp((count * sumTY - sumT * sumY) / (count * sumTT - sumT * sumT));
}

describe('the share loop shrinks errors by its spectral radius', () => {
  it.each([
    [5, 1, 0.05, 0.8873],
    [5, 1, 0.1, 0.9472],
    [10, 1, 0.1, 0.8873],
    [10, 1, 0.2, 0.9472],
    [10, 2, 0.1, 0.867],
    [10, 2, 0.2, 0.9439],
    [20, 2, 0.2, 0.867],
    [20, 2, 0.5, 0.9563],
    [50, 1, 0.5, 0.8873],
    [10, 2, 0.02, 0.9406],
    [20, 2, 0.05, 0.8822],
    [20, 2, 0.02, 1.151],
    [50, 1, 0.05, 1.0],
  ])('period %d ms, %d late, τ %d s: %d', (period, late, tau, rho) => {
    expect(Math.abs(radius(period, late, tau) - rho)).toBeLessThan(5e-3 * rho);
  });
});
