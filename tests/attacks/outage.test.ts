/** An outage that is stated widens limits only where something was out, and only then. */
import { describe, expect, it } from 'vitest';
import { attacked, findingOf } from './attacked.ts';

/** The ripple of the mirrored cabinet lies between the two columns. */
const between = { 'limits.ac-ripple-0.5-3.normal': '4 %', 'limits.ac-ripple-0.5-3.degraded': '20 %' };
const stated = { ...between, outage: 'true', duration: '4.8 s' };

describe('an outage that is stated', () => {
  it('changes nothing where nothing is out', () => {
    const { report } = attacked('mirror', { changes: stated });
    expect(findingOf(report, 'ac-ripple-0.5-3')).toMatchObject({ verdict: 'fail', column: 'normal' });
    expect(report.findings.some(({ column }) => column === 'degraded')).toBe(false);
  });

  it('changes nothing with less load', () => {
    const { report } = attacked('mirror', {
      changes: stated,
      happens: ['sled-off sled-8 at 1 s'],
    });
    expect(report.findings.some(({ column }) => column === 'degraded')).toBe(false);
  });

  it.each([
    ['a set point that moves by a millionth', 'set-point-shift S1 by 0.0001 % at 1 s'],
    ['coolant as good as before', 'coolant-loss S1 to 99.99 % at 1 s'],
    ['a signal later by a microsecond', 'signal-late share by 1 us at 1 s'],
  ])('is a condition with %s, where only the wider column lets it pass', (_what, event) => {
    const { report } = attacked('mirror', { changes: { ...stated, duration: '14.4 s' }, happens: [event] });
    expect(findingOf(report, 'ac-ripple-0.5-3')).toMatchObject({
      verdict: 'inconclusive',
      column: 'degraded',
    });
    expect(findingOf(report, 'ac-ripple-0.5-3').reason).toMatch(
      /counts as an outage is stated, nothing was out/,
    );
  });

  it('does not reach beyond a microsecond without a phase and the time after it', () => {
    const { report } = attacked('mirror', {
      changes: { ...stated, 'limits.ac-tone-7-100.normal': '0.1 %', duration: '12.8 s' },
      happens: ['phase-loss F1 for 1 us at 0.1 s'],
    });
    for (const id of ['ac-tone-7-100', 'ac-ripple-3-20']) {
      expect(findingOf(report, id).time_s).toBeGreaterThan(10.1);
    }
    expect(findingOf(report, 'ac-tone-7-100')).toMatchObject({ verdict: 'fail', column: 'normal' });
    expect(findingOf(report, 'ac-tone-7-100').reason).toMatch(/nothing that bears on it was out then$/);
  });

  it('does not reach back before a tray that leaves in the last second', () => {
    const { report } = attacked('mirror', {
      changes: { ...stated, duration: '6.4 s' },
      happens: ['tray-out T4 at 5.6 s'],
    });
    expect(findingOf(report, 'ac-ripple-0.5-3')).toMatchObject({ verdict: 'fail', column: 'normal' });
    expect(findingOf(report, 'ac-ripple-0.5-3').reason).toMatch(/nothing that bears on it was out then$/);
  });
});

describe('events of zero size', () => {
  it('are no disturbance: what fails without them fails with them', () => {
    const happens = ['set-point-shift S1 by 0 % at 1 s', 'charge-shift T1 by 0 % at 4 s'];
    const { report, result } = attacked('mirror', {
      changes: { 'limits.ac-ripple-0.5-3.normal': '4 %', duration: '4.8 s' },
      happens,
    });
    expect(result.spans.filter(({ kind }) => kind === 'altered')).toEqual([]);
    expect(findingOf(report, 'ac-ripple-0.5-3').verdict).toBe('fail');
    expect(findingOf(report, 'flicker-pst').verdict).toBe('pass');
  });
});
