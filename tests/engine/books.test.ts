/**
 * The books of the judged window, and of nothing else: what happens to the cabinet after the window does not change what
 * its stores were counted with, and a run that ends before the window has none.
 */
import { describe, expect, it } from 'vitest';
import { simulate } from '../../src/engine/simulate.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { type Changes, simulated } from './runs.ts';
import { smallCabinet } from './small-cabinet.ts';

/** One period of 1.6 s is judged; the run goes on to 1.8 s. */
const run: Changes = { duration: '1.8 s', warm_up: '0 s', start: 'settled' };

describe('what happens after the judged window', () => {
  const alone = simulated('pulse-train', run).audit;

  it.each(['bank-short K1 at 1.7 s', 'bank-out K1 at 1.7 s', 'module-out S1 at 1.7 s count 3'])(
    'leaves its books as they were: %s',
    (event) => {
      const { audit, window } = simulated('pulse-train', { ...run, 'events.add': event });
      expect(window.to_s).toBeCloseTo(1.6, 9);
      expect(audit).toEqual(alone);
    },
  );
});

describe('a run that collapses before its window begins', () => {
  it.each([
    ['bank-short', { 'events.1.at': '5 ms', duration: '1.5 s', warm_up: '1 s' }],
    ['sled-short', { 'events.1.at': '5 ms', 'events.1.to': '0.1 mΩ', 'events.1.for': '1 s', warm_up: '2 s' }],
  ] as const)('has empty books and is called collapsed: %s', (name, changes) => {
    const { status, audit } = simulated(name, changes);
    expect(status).toBe('collapsed');
    expect(audit).toMatchObject({ rows: [], input_J: 0, residual_ratio: 0, residual_loss_ratio: 0 });
  });
});

describe('a converged cycle with few slow states', () => {
  it.each([0, 1, 2])('is made of numbers: %i trays', (trays) => {
    const scenario = smallCabinet({
      trays,
      banks: 1,
      batteries: 0,
      sleds: 2,
      start: 'converged-cycle',
      load: '{ kind: pulse-train, low: 6 kW, high: 24 kW, period: 60 ms, duty: 40 %, edge: 15 ms }',
      duration: '130 ms',
      events: ['at: 125 ms, what: brake, unit: all, to: 50 %'],
    });
    const { status, extremes, audit } = simulate(assemble(scenario), makeDemand(scenario), {
      levels_V: Float64Array.of(48, 51),
    });
    expect(status).toBe('ok');
    expect(Math.abs(audit.residual_ratio)).toBeLessThan(1e-5);
    expect(extremes.filter(({ min, max }) => !Number.isFinite(min + max))).toEqual([]);
  });
});
