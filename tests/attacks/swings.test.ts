/** What swings by itself is told, however slowly it grows and whatever else could be said to drive it. */
import { describe, expect, it } from 'vitest';
import { attacked, findingOf } from './attacked.ts';

describe('a charge loop of the trays that rings at 0.65 Hz', () => {
  const at = (time: string, integral: string) =>
    attacked('idle', {
      changes: {
        duration: '0.5 s',
        'load.power': '150 kW',
        'firmware.smoothing.charge_time': time,
        'firmware.smoothing.charge_integral_time': integral,
      },
    }).report;

  it('fails, though it needs minutes to grow', () => {
    const report = at('60 s', '1 ms');
    expect(report.verdict).toBe('fail');
    expect(findingOf(report, 'mode-damping')).toMatchObject({ verdict: 'fail' });
    expect(findingOf(report, 'mode-damping').value).toBeLessThan(0);
    expect(findingOf(report, 'mode-damping').reason).toMatch(/^0\.6\d\d Hz grows .* capacitor voltage/);
  });

  it('fails, though it needs minutes to die', () => {
    const damping = findingOf(at('60 s', '3 ms'), 'mode-damping');
    expect(damping.verdict).toBe('fail');
    expect(damping.value).toBeGreaterThan(0);
  });

  it('passes where it is damped', () => {
    expect(findingOf(at('20 s', '40 s'), 'mode-damping').verdict).toBe('pass');
  });
});

describe('a load that is switched off', () => {
  it('is looked at as the trays smoothed it, not as if they had forgotten it', () => {
    const { report } = attacked('idle', {
      changes: { duration: '0.7 s', 'load.power': '150 kW' },
      happens: ['sled-off all at 0.1 s'],
    });
    expect(report.stability.points).toHaveLength(2);
    expect(findingOf(report, 'mode-damping').verdict).toBe('pass');
  });
});

describe('packs that empty', () => {
  it.each(['0.3 kWh', '0.1 kWh'])('are no instability, however small: %s each', (energy) => {
    const { report } = attacked('idle', {
      changes: { duration: '1 s', 'load.power': '150 kW', 'batteries.energy': energy },
      happens: ['ac-loss all at 0.2 s'],
    });
    expect(report.stability.points.some(({ carrying }) => carrying.length === 5)).toBe(true);
    expect(findingOf(report, 'mode-damping')).toMatchObject({ verdict: 'pass' });
  });
});

describe('a swing at a multiple of twice the line frequency', () => {
  it('is not the line’s where the line hardly pulsates', () => {
    const { report } = attacked('idle', {
      changes: {
        duration: '0.15 s',
        'shelves.control_delay': '85 us',
        'shelves.line_ripple': '0.01 %',
        'feeders.frequency': '660 Hz',
      },
    });
    expect(findingOf(report, 'device-ripple')).toMatchObject({ verdict: 'fail' });
    expect(report.outcome.kind).toBe('oscillating');
  });
});
