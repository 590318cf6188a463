/** What the window cuts is longer than what is left of it there: a run that is cut elsewhere reads the same. */
import { describe, expect, it } from 'vitest';
import type { Report } from '../../src/analysis/judge/report.ts';
import { attacked, findingOf } from './attacked.ts';

const verdictOf = (report: Report, id: string) => findingOf(report, id, 'normal').verdict;

/** A bus at some 49.7 V for ever. */
const loaded = { 'load.power': '200 kW', 'limits.bus-steady-low.normal': '99.8 %' };

describe('a stay as long as the run', () => {
  it('goes on without end where the load does', () => {
    for (const stay of ['1 s', '10 s', '600 s']) {
      const { report } = attacked('idle', { changes: { ...loaded, 'limits.bus-steady-low.stay': stay } });
      expect([stay, verdictOf(report, 'bus-steady-low')]).toEqual([stay, 'fail']);
      expect(findingOf(report, 'bus-steady-low').reason).toMatch(/for as long as the load goes on/);
    }
  });

  it('is none where the node does not lie beyond', () => {
    const { report } = attacked('idle', {
      changes: { ...loaded, 'limits.bus-steady-low.normal': '98 %', 'limits.bus-steady-low.stay': '600 s' },
    });
    expect(verdictOf(report, 'bus-steady-low')).toBe('pass');
  });
});

describe('a bus that ripples across a level', () => {
  const rippling = (changes: Readonly<Record<string, string>>) =>
    attacked('idle', {
      changes: { 'load.power': '200 kW', 'limits.bus-steady-low.normal': '99.396 %', ...changes },
    }).report;

  it('does not stay beyond it, wherever the window begins', () => {
    for (const warm_up of ['0 s', '50 ms', '1.3 s']) {
      const report = rippling({ warm_up });
      expect([warm_up, verdictOf(report, 'bus-steady-low')]).toEqual([warm_up, 'pass']);
    }
  });
});

describe('a load that repeats, cut in the middle of its high part', () => {
  /** 2 s at 240 kW in 4 s. */
  const pulses = (changes: Readonly<Record<string, string>>) =>
    attacked('mirror', {
      changes: {
        'load.period': '4 s',
        'load.duty': '50 %',
        'limits.bus-steady-low.normal': '99.7 %',
        'limits.bus-steady-low.stay': '1.5 s',
        ...changes,
      },
    }).report;

  it('is low as long in one period as in three', () => {
    const [one, three] = [
      pulses({ warm_up: '3 s', duration: '7 s' }),
      pulses({ warm_up: '3 s', duration: '15 s' }),
    ];
    expect(verdictOf(three, 'bus-steady-low')).toBe('fail');
    expect(verdictOf(one, 'bus-steady-low')).toBe('fail');
    const [a, b] = [one, three].map((report) => findingOf(report, 'bus-steady-low'));
    expect(a!.duration_s).toBeCloseTo(b!.duration_s!, 2);
  });

  it('asks as much of its sleds in one period as in three', () => {
    // 0.8 s at 240 kW in 4 s, of which the window's beginning leaves 0.4 s at either end.
    const short = { 'load.duty': '20 %', 'limits.sled-power-50ms.stay': '0.6 s' };
    const [one, three] = [
      pulses({ ...short, warm_up: '3.6 s', duration: '7.6 s' }),
      pulses({ ...short, warm_up: '3.6 s', duration: '15.6 s' }),
    ];
    for (const id of ['sled-power-50ms', 'sled-power']) {
      const [a, b] = [one, three].map((report) => findingOf(report, id).value!);
      expect(Math.abs(a! / b! - 1)).toBeLessThan(0.01);
    }
  });
});

describe('a step that comes early', () => {
  const step = (at: string, more: Readonly<Record<string, string>>) =>
    attacked('single-step', { changes: { 'load.at': at, duration: '6 s', ...more } }).report;

  it('leaves as it was what the sleds drew for ever before', () => {
    const down = { 'load.before': '290 kW', 'load.after': '60 kW' };
    for (const [at, warm_up] of [
      ['0.5 s', '0 s'],
      ['0.5 s', '0.2 s'],
      ['3 s', '0 s'],
    ] as const) {
      const report = step(at, { ...down, warm_up });
      expect([at, verdictOf(report, 'sled-power')]).toEqual([at, 'fail']);
      expect(findingOf(report, 'sled-power').value).toBeCloseTo(1.257, 2);
    }
  });

  it('shows nothing of what comes after in a run that is over before', () => {
    // 104 % of the sleds' peak power for ever before, against 105 %.
    const report = step('0.1 s', { 'load.before': '240 kW', 'load.after': '60 kW', duration: '0.8 s' });
    expect(report.findings.some(({ verdict }) => verdict === 'pass')).toBe(true);
    expect(findingOf(report, 'sled-power').value).toBeGreaterThan(1);
    expect(verdictOf(report, 'sled-power')).toBe('inconclusive');
  });

  it('leaves a stay that no one saw begin', () => {
    const down = { 'load.before': '200 kW', 'load.after': '60 kW', 'limits.bus-steady-low.normal': '99.8 %' };
    for (const at of ['0.5 s', '3 s']) expect(verdictOf(step(at, down), 'bus-steady-low')).toBe('fail');
  });

  it('leaves no shelf cooler than it was', () => {
    const down = { 'load.before': '285 kW', 'load.after': '60 kW' };
    for (const warm_up of ['0 s', '0.2 s'])
      for (const at of ['0.5 s', '3 s'])
        expect(findingOf(step(at, { ...down, warm_up }), 'shelf-continuous').value).toBeGreaterThan(0.98);
  });
});

describe('a bar that a load had warmed for ever before it fell', () => {
  const hot = (happens: readonly string[]) => {
    const { report } = attacked('single-step', {
      changes: {
        'load.before': '242 kW',
        'load.after': '60 kW',
        'load.at': '2 s',
        duration: '12 s',
        'bars.links.thermal_time': '100 s',
      },
      happens,
    });
    return findingOf(report, 'bar-heat').value!;
  };

  it('was as warm, whatever happened since', () => {
    for (const at of ['1 s', '6 s']) expect(hot([`battery-fail all at ${at}`])).toBeCloseTo(hot([]), 2);
  });
});

describe('AC that is lost', () => {
  const happens = ['ac-loss all at 2 s'];
  /** Five shelves of 36 kW carry 186 kW. */
  const few = {
    'load.power': '186 kW',
    duration: '12 s',
    'shelves.S1.fitted': 'no',
    'shelves.S2.fitted': 'no',
    'shelves.S5.fitted': 'no',
  };

  it('is no rest for shelves that were overloaded while it was there', () => {
    const without = findingOf(attacked('idle', { changes: few }).report, 'shelf-continuous');
    const lost = findingOf(attacked('idle', { changes: few, happens }).report, 'shelf-continuous');
    expect(without.verdict).toBe('fail');
    expect(lost.verdict).toBe('fail');
    expect(lost.value).toBeCloseTo(without.value!, 2);
  });

  it('is no end of a stay that had lasted for ever when it came', () => {
    const low = {
      'load.power': '200 kW',
      'shelves.set_point': '48.2 V',
      'firmware.handover.trigger_voltage': '45 V',
      'firmware.handover.set_point_asleep': '46 V',
      duration: '6 s',
    };
    for (const at of ['0.9 s', '1.5 s']) {
      const { report } = attacked('idle', { changes: low, happens: [`ac-loss all at ${at}`] });
      expect([at, verdictOf(report, 'bus-steady-low')]).toEqual([at, 'fail']);
    }
  });
});

describe('an event that does nothing', () => {
  it('makes no tray warmer, whenever it comes', () => {
    const hot = (happens: readonly string[]) =>
      findingOf(attacked('pulse-train', { changes: { duration: '16 s' }, happens }).report, 'tray-hot-spot')
        .value!;
    const alone = hot([]);
    for (const at of ['0.3 s', '1 s', '3 s'])
      expect(Math.abs(hot([`battery-fail all at ${at}`]) - alone)).toBeLessThan(0.5);
  });
});
