import { describe, expect, it } from 'vitest';
import type { Audit, Failure } from '../../src/engine/result.ts';
import { auditLimits, statusOf } from '../../src/engine/status.ts';

const audit = (residual_ratio: number, residual_loss_ratio: number): Audit => ({
  rows: [],
  input_J: 1,
  load_J: 1,
  loss_J: 1,
  stored_J: 0,
  residual_ratio,
  residual_loss_ratio,
});

const closed = audit(auditLimits.throughput, -auditLimits.losses);

const collapse: Failure = { time_s: 0.01, name: 'sled-1', last_finite: 24.9, cause: 'the bus collapsed' };

describe('statusOf()', () => {
  it('says how a run with closed books ended', () => {
    expect(statusOf(closed, null, false)).toBe('ok');
    expect(statusOf(closed, collapse, false)).toBe('collapsed');
    expect(statusOf(closed, null, true)).toBe('stopped');
  });

  it.each([
    ['of throughput', audit(-1.1 * auditLimits.throughput, 0)],
    ['of losses', audit(0, 1.1 * auditLimits.losses)],
    ['by what is no number', audit(Number.NaN, Number.NaN)],
    ['without end', audit(Number.POSITIVE_INFINITY, 0)],
  ])('says first that an audit is open %s, whatever else happened', (_, open) => {
    expect(statusOf(open, null, false)).toBe('audit_open');
    expect(statusOf(open, collapse, false)).toBe('audit_open');
    expect(statusOf(open, null, true)).toBe('audit_open');
  });
});
