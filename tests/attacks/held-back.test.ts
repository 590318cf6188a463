/** A load that the sleds keep to themselves shows nothing of what the cabinet does under it. */
import { describe, expect, it } from 'vitest';
import type { Run } from '../../src/run.ts';
import { attacked } from './attacked.ts';

const unserved = ({ report }: Run): string[] =>
  report.basis.filter(({ kind }) => kind === 'unserved').map(({ what }) => what);

describe('governors of the sleds', () => {
  it('that let hardly any of a pulse through make its pass one with conditions', () => {
    const run = attacked('mirror', { changes: { duration: '3.2 s', 'sleds.governor_ramp_up': '1 kW/s' } });
    expect(run.report.verdict).toBe('pass_with_conditions');
    expect(unserved(run)).toEqual([
      expect.stringMatching(
        /governors hold back .* % of the work's energy and .* and the uppermost .* % of its peak/,
      ),
    ]);
  });

  it('that take longer than the run for a step', () => {
    const run = attacked('single-step', {
      changes: { duration: '0.3 s', 'sleds.governor_ramp_up': '10 kW/s' },
    });
    expect(unserved(run)).toEqual([expect.stringMatching(/of its peak$/)]);
  });

  it('that let every pulse through are no condition', () => {
    const run = attacked('self-smoothed', { changes: { duration: '3.2 s' } });
    expect(unserved(run)).toEqual([]);
    expect(run.report.verdict).toBe('pass');
  });
});
