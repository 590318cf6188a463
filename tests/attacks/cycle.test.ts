/** What is repeated without end must be what goes on: a cycle that has closed, after the last thing that happened. */
import { describe, expect, it } from 'vitest';
import { askForLong, attacked, findingOf } from './attacked.ts';

describe('a pulse train', () => {
  it('started settled, which still drifts, is not judged as its cycle', () => {
    const { report } = attacked('mirror', { changes: { duration: '6.4 s', start: 'settled' } });
    expect(report.verdict).toBe('pass_with_conditions');
    expect(findingOf(report, 'flicker-pst').reason).toMatch(/not in its cycle/);
  });

  it('started in its cycle is, and passes', () => {
    const { report } = attacked('mirror', { changes: { duration: '3.2 s' } });
    expect(report.verdict).toBe('pass');
  });
});

describe('an overload that shelves bear for a while', () => {
  // 200 kW are 70 % of the shelves' rating; they bear more than 60 % for 4 s.
  const borne = {
    'load.power': '200 kW',
    'shelves.overload_level_1': '60 %',
    'shelves.overload_hold_1': '4 s',
    'shelves.overload_duty_1': '50 %',
  };

  it('is no cycle before they have borne it out', () => {
    const { report } = attacked('idle', { changes: { ...borne, duration: '3 s' } });
    expect(report.verdict).toBe('pass_with_conditions');
    expect(findingOf(report, 'flicker-pst').reason).toMatch(/still counts up what it bears only for a while/);
  });

  it('fails once they have', () => {
    expect(attacked('idle', { changes: { ...borne, duration: '5 s' } }).report.verdict).toBe('fail');
  });
});

describe('a constant load that lost shelves on the way', () => {
  // Three of eight shelves trip; the five that are left carry 186 kW of the 180 kW they are rated for.
  const happens = ['S1', 'S2', 'S5'].map((id) => `shelf-trip ${id} at 5 s`);

  it('is judged by what goes on, not by a mean with the easy time before', () => {
    const { report } = attacked('idle', { changes: { duration: '18 s', 'load.power': '186 kW' }, happens });
    expect(report.verdict).toBe('fail');
    expect(findingOf(report, 'shelf-continuous')).toMatchObject({ verdict: 'fail' });
    expect(findingOf(report, 'shelf-continuous').value).toBeCloseTo(186 / 180, 1);
  });

  it('settles nothing while less than 10 s have passed since', () => {
    const { report } = attacked('idle', { changes: { duration: '8 s', 'load.power': '150 kW' }, happens });
    expect(report.verdict).toBe('pass_with_conditions');
    for (const id of askForLong) expect([id, findingOf(report, id).verdict]).toEqual([id, 'inconclusive']);
  });
});

describe('batteries that still carry at the end', () => {
  it('are no cycle of a constant load', () => {
    const { report } = attacked('idle', {
      changes: { duration: '3 s', 'load.power': '150 kW' },
      happens: ['ac-loss all at 0.4 s'],
    });
    expect(report.verdict).toBe('pass_with_conditions');
    expect(findingOf(report, 'battery-recharge').verdict).toBe('inconclusive');
    for (const id of askForLong) expect([id, findingOf(report, id).verdict]).toEqual([id, 'inconclusive']);
  });
});
