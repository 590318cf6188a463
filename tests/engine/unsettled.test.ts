/**
 * Steps that do not settle, made by capacitors with a thousand times their resistance: a constant power behind them has
 * next to no operating point. Such a step cannot be taken finer than a tick; it ends as its last solve has it, in both
 * kernels alike, and is said.
 */
import { describe, expect, it } from 'vitest';
import { simulate } from '../../src/engine/simulate.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { run } from '../../src/run.ts';
import { type Changes, shippedWith } from './runs.ts';

const step: Changes = { 'load.at': '2 ms', duration: '8 ms' };

const trays: Changes = { ...step, 'trays.output_esr': '1 Ω', 'trays.output_capacitance': '0.1 mF' };

const sleds: Changes = {
  ...step,
  'sleds.ceramic_esr': '1 Ω',
  'sleds.input_esr': '1 Ω',
  'bars.contact.inductance': '5 µH',
};

const resultOf = (changes: Changes, kernel: 'fast' | 'plain') => {
  const scenario = shippedWith('single-step', changes);
  return simulate(assemble(scenario), makeDemand(scenario), { levels_V: Float64Array.of(48, 51), kernel });
};

describe('a step that does not settle', () => {
  it('is found by damped solves behind trays with next to no capacitor', () => {
    const { status, audit, counters } = resultOf(trays, 'fast');
    expect(status).toBe('ok');
    expect(counters.unsettled_steps).toBe(0);
    expect(Math.abs(audit.residual_ratio)).toBeLessThan(1e-5);
  });

  it.each([{}, { 'load.before': '20 kW' }])(
    'is counted and told, and the open audit before the collapse',
    (more) => {
      const { status, failure, counters, log } = resultOf({ ...sleds, ...more }, 'fast');
      expect(status).toBe('audit_open');
      expect(failure).not.toBeNull();
      expect(counters.unsettled_steps).toBeGreaterThan(0);
      expect(log.at(-1)?.detail).toMatch(/^\d+ steps of one tick did not settle/);
      const { report } = run(shippedWith('single-step', { ...sleds, ...more }), null);
      expect(report.verdict).toBe('inconclusive');
      expect(report.summary).toContain('the energy audit is open: the bus');
      expect(report.outcome.kind).toBe('collapsed');
    },
  );

  it.each([trays, sleds])('ends with the same bits in both kernels', (changes) => {
    const [fast, plain] = [resultOf(changes, 'fast'), resultOf(changes, 'plain')];
    expect(fast.extremes).toEqual(plain.extremes);
    expect(fast.audit).toEqual(plain.audit);
    expect(fast.counters).toEqual(plain.counters);
  });
});
