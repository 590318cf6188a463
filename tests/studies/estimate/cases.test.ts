/** Hand rules for several cases at once. */
import { describe, expect, it } from 'vitest';
import { estimate } from '../../../src/studies/estimate/estimate.ts';
import { changes, contextHere } from '../here.ts';

describe('estimate()', () => {
  it('asks by energy alone for one tray, by start power for eleven', () => {
    const { read } = contextHere();
    const made = estimate([
      { name: 'pulses', read: read({ scenario: 'scenarios/pulse-train.yaml', changes: [] }) },
      {
        name: 'idle to full',
        read: read({ scenario: 'scenarios/single-step.yaml', changes: changes('load.before = 31.2 kW') }),
      },
    ])!;
    expect([made.energyAlone, made.most]).toEqual([1, { trays: 11, rule: 5, title: 'Start power' }]);
    expect(new Set(made.lines.map(({ rule }) => rule))).toEqual(
      new Set([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14]),
    );
    const trays = (rule: number, about: string) =>
      made.lines.find((line) => line.rule === rule && line.about === about)?.trays;
    // 140 kW · 0.7 · 0.3 · 1.6 s over nine tenths of 162.5 F/2 · (43.2² − 28.8²).
    expect(trays(3, 'pulses')).toBeCloseTo(47040 / (0.9 * 84240), 6);
    expect(trays(4, 'idle to full')).toBeCloseTo((2.8 * 208800) / (0.9 * 84240), 6);
    expect(trays(5, 'idle to full')).toBeCloseTo(208.8 / 20, 12);
  });
});
