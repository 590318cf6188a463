/** Cabinets and loads that look well for the length of a run, or because nobody looks where it hurts. */
import { describe, expect, it } from 'vitest';
import { type Attack, attacked, findingOf } from './attacked.ts';

/** What conditions the pass of a run, and its verdict. */
function conditionsOf(name: string, attack: Attack): { verdict: string; conditions: string[] } {
  const { report } = attacked(name, attack);
  return {
    verdict: report.verdict,
    conditions: report.basis.filter(({ conditions }) => conditions).map(({ what }) => what),
  };
}

describe('a feeder without a phase', () => {
  it.each([
    ['pulse-train', { duration: '3.2 s' }],
    ['idle', { duration: '3 s', 'load.power': '200 kW' }],
  ])('carries half as much again on the two that are left: %s', (name, changes) => {
    const { report } = attacked(name, { changes, happens: ['phase-loss F1 at 0.1 s'] });
    const finding = findingOf(report, 'line-current-continuous');
    expect(finding.node).toBe('F1');
    expect(finding.value).toBeGreaterThan(0.88);
    expect(report.verdict).not.toBe('pass');
    expect(report.basis.map(({ what }) => what)).toContain(
      'with a phase lost the power does not pulse at twice the line frequency',
    );
  });

  it('is not passed on a line far above its nominal voltage either', () => {
    const { verdict, conditions } = conditionsOf('uneven-load', {
      changes: { duration: '3 s' },
      happens: ['ac-swell all to 200 % for 1 s at 0.5 s'],
    });
    expect(verdict).not.toBe('pass');
    expect(conditions.join('; ')).toMatch(/withstand 200 % of the line voltage at F1/);
  });
});

describe('trays that empty', () => {
  it.each([
    ['idle', { duration: '3 s', 'firmware.smoothing.charge_power_limit': '10 W' }, []],
    ['uneven-load', { duration: '3 s', 'firmware.smoothing.charge_power_limit': '10 W' }, []],
    ['uneven-load', { duration: '12.6 s' }, ['tray-stuck T1 to 200 W at 0.5 s']],
  ])('in minutes pass no run of seconds: %s', (name, changes, happens) => {
    const { report } = attacked(name, { changes: changes as Record<string, string>, happens });
    expect(report.verdict).not.toBe('pass');
    expect(findingOf(report, 'flicker-pst').verdict).toBe('inconclusive');
  });
});

describe('an outage that has nothing to do with it', () => {
  it.each([
    ['a battery shelf that need not start', {}, ['battery-fail B1 at 0 s']],
    ['a tie that is open by design', { 'bars.tie.closed': 'no' }, []],
  ])('does not widen the limits of the AC side: %s', (_what, changes, happens) => {
    const { report } = attacked('pulse-train', {
      changes: {
        ...changes,
        duration: '12.8 s',
        outage: 'true',
        'firmware.smoothing.latency': '1 ms',
      } as Record<string, string>,
      happens,
    });
    expect(findingOf(report, 'ac-ripple-3-20').verdict).toBe('fail');
  });
});

describe('a load that is not all there', () => {
  it('sleds that go dark, however short of the energy', () => {
    const { verdict, conditions } = conditionsOf('idle', {
      changes: { 'load.power': '100 kW', duration: '14 s' },
      happens: ['sled-off sled-1 at 1 s', 'sled-on sled-1 at 1.1 s'],
    });
    expect(verdict).not.toBe('pass');
    expect(conditions).toContain('sled-1 off for a while: what they computed is lost');
  });

  it('governors that withhold work and burn as much at other times', () => {
    const ramp = '9.3 kW/s';
    const { verdict, conditions } = conditionsOf('pulse-train', {
      changes: {
        'load.period': '2 s',
        'load.duty': '50 %',
        'sleds.governor_ramp_up': ramp,
        'sleds.governor_ramp_down': ramp,
        duration: '4 s',
      },
    });
    expect(verdict).not.toBe('pass');
    expect(conditions.join('; ')).toMatch(/hold back 19\.\d % of the work when it asks for power/);
  });

  it('sleds that are out of step, and no load at all', () => {
    const spread = conditionsOf('pulse-train', {
      changes: { 'load.period': '4 s', 'load.spread': '2 s', duration: '8 s' },
    });
    expect(spread.conditions.join('; ')).toMatch(/out of step, spread over 2 s/);
    expect(conditionsOf('idle', { changes: { 'load.power': '0 W', duration: '2 s' } }).conditions).toEqual([
      'no load was demanded at all',
    ]);
  });
});

describe('a rating that is taken away', () => {
  it.each([
    ['joint-heat', 'bars.links.LA2.joint_thermal_resistance', '0 K/W', /LA2 states no cooling of its joints/],
    ['bar-heat', 'bars.links.LA2.rated_current', '0 A', /LA2 states no current that heats it by 50 K/],
  ])('leaves %s inconclusive', (limit, path, value, because) => {
    const { report } = attacked('pulse-train', { changes: { duration: '3.2 s', [path]: value } });
    const finding = findingOf(report, limit);
    expect(finding.verdict).toBe('inconclusive');
    expect(finding.reason).toMatch(because);
    expect(report.verdict).not.toBe('pass');
  });

  it('or never was there: the heat of plug contacts', () => {
    const changes = { duration: '3.2 s', 'bars.contact.resistance': '3 mΩ' };
    expect(attacked('pulse-train', { changes }).report.verdict).not.toBe('pass');
  });
});
