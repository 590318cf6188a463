/** What happened as it should is no fail: units that do their job while AC is lost, or share what they can share. */
import { describe, expect, it } from 'vitest';
import { attacked, findingOf } from './attacked.ts';

/** The shelves of F1 count a sag to half as AC lost; the others keep theirs. */
const { report, result } = attacked('idle', {
  changes: { duration: '3.5 s', 'load.power': '200 kW' },
  happens: ['ac-sag F1 to 50 % for 1 s at 0.5 s'],
});

describe('a brown-out', () => {
  it('is AC lost where shelves count it so, and their walk-in follows', () => {
    const lost = result.spans.filter(({ kind, what }) => kind === 'ac-lost' && what === 'brown-out');
    expect(lost.map(({ who }) => who).sort()).toEqual(['S1', 'S2', 'S3', 'S4']);
    expect(result.spans.filter(({ kind }) => kind === 'walk-in').length).toBeGreaterThan(0);
  });

  it('lets batteries start, as meant', () => {
    expect(findingOf(report, 'battery-starts')).toMatchObject({ verdict: 'pass', value: 0 });
    expect(findingOf(report, 'battery-starts').reason).toMatch(/as meant$/);
  });

  it('holds no share against shelves that walk in', () => {
    for (const id of ['share-steady-high', 'share-settling', 'section-balance', 'bulk-margin']) {
      expect([id, findingOf(report, id).verdict]).not.toEqual([id, 'fail']);
    }
    expect(report.verdict).toBe('pass_with_conditions');
  });
});

it('a battery that starts while AC is there still fails', () => {
  const nervous = attacked('idle', {
    changes: { duration: '1 s', 'load.power': '150 kW', 'firmware.handover.trigger_voltage': '50.5 V' },
  });
  expect(findingOf(nervous.report, 'battery-starts').verdict).toBe('fail');
});

it('sections that carry next to nothing are not held against each other', () => {
  const { report } = attacked('idle', { changes: { duration: '2 s', 'load.power': '0 W' } });
  expect(findingOf(report, 'section-balance')).toMatchObject({ verdict: 'not_applicable' });
  // Nothing was asked of the cabinet; that is its only condition.
  expect(report.basis.filter(({ conditions }) => conditions).map(({ what }) => what)).toEqual([
    'no load was demanded at all',
  ]);
});
