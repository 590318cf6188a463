/**
 * The converged cycle against period after period of the same engine. A change below 1e-5 a period of what goes by a
 * fifth in it leaves 5e-5, and plain periods leave 3e-5: from 0.1 at the start by exp(−0.5/s) over 16 s. 1.5e-4 is asked for.
 * What the trays keep is quick here, so that plain periods come to rest within the test; trims have no quantum, for which
 * no period would repeat.
 */
import { describe, expect, it } from 'vitest';
import { advance } from '../../../src/engine/advance.ts';
import { type Cabinet, ready } from '../../../src/engine/cabinet.ts';
import { converge, type Way } from '../../../src/engine/cycle/converge.ts';
import { SlowStates } from '../../../src/engine/cycle/slow-states.ts';
import { firmwareAgenda } from '../../../src/engine/firmware-agenda.ts';
import { makeDemand } from '../../../src/loads/make-demand.ts';
import { assemble } from '../../../src/network/network.ts';
import { shippedWith } from '../runs.ts';

const quick = {
  'load.period': '0.4 s',
  'firmware.share.trim_quantum': '0 V',
  'firmware.smoothing.time_constant': '0.5 s',
  'firmware.smoothing.charge_time': '1 s',
  'firmware.smoothing.charge_integral_time': '2 s',
} as const;

function built(changes: Readonly<Record<string, string>>): { cabinet: Cabinet; period: number } {
  const scenario = shippedWith('pulse-train', { ...quick, ...changes });
  const demand = makeDemand(scenario);
  return { cabinet: ready(assemble(scenario), demand, 1), period: demand.period_ticks! };
}

function slowAfter(changes: Readonly<Record<string, string>>, way: Way) {
  const { cabinet, period } = built(changes);
  const found = converge(cabinet, period, way);
  return { ...found, at: new SlowStates(cabinet, period).read() };
}

function slowAfterPlain(changes: Readonly<Record<string, string>>, periods: number): Float64Array {
  const { cabinet, period } = built(changes);
  for (let k = 0; k < periods; k++) advance(cabinet, firmwareAgenda(cabinet, 0), 0, period, null);
  return new SlowStates(cabinet, period).read();
}

const apart = (a: Float64Array, b: Float64Array): number =>
  a.reduce((most, x, k) => Math.max(most, Math.abs(x - b[k]!)), 0);

describe('the converged cycle', () => {
  it.each([
    ['trays that follow the load', {}],
    ['trays that balance', { 'firmware.smoothing.balance_time': '10 s' }],
  ])('is where plain periods lead to, within four: %s', (_, changes) => {
    const { outcome, cycles, at } = slowAfter(changes, 'ahead');
    expect(outcome).toBe('converged');
    expect(cycles).toBeLessThanOrEqual(4);
    const plain = slowAfterPlain(changes, 40);
    expect(apart(slowAfterPlain(changes, 1), plain)).toBeGreaterThan(1e-3);
    expect(apart(at, plain)).toBeLessThan(1.5e-4);
  });

  it('goes on by mixing alone where a clamp holds and the slopes are not true', () => {
    const changes = { 'firmware.smoothing.charge_power_limit': '100 W' };
    const ahead = slowAfter(changes, 'ahead');
    const mixed = slowAfter(changes, 'mixing');
    expect(ahead.outcome).toBe(mixed.outcome);
    expect(ahead.cycles).toBeLessThanOrEqual(mixed.cycles + 2);
  });
});
