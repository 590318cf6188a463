/**
 * Spectral groups of IEC 61000-4-7:2002 + A1:2008 on currents whose lines are known by trigonometry: a carrier
 * of 100 A RMS modulated by m at f_m has lines of m/2 · 100 A at 50 ± f_m Hz. Tolerance: rounding, 1e-9.
 */
import { describe, expect, it } from 'vitest';
import { groupsOf } from '../../src/analysis/grid/groups.ts';
import { lineCurrent } from '../../src/analysis/grid/line-current.ts';
import { columnOf } from '../../src/analysis/signal/samples.ts';
import { published } from './published.ts';

const rate_Hz = 1000;

function modulated(line_Hz: number, m: number, f_m: number, seconds = 2): Float64Array {
  return Float64Array.from({ length: seconds * rate_Hz }, (_, j) => {
    const t = j / rate_Hz;
    const envelope = 1 + m * Math.cos(2 * Math.PI * f_m * t);
    return 100 * Math.SQRT2 * envelope * Math.cos(2 * Math.PI * line_Hz * t);
  });
}

const close = (a: number | null, b: number): void => expect(Math.abs(a! - b)).toBeLessThan(1e-9 * 100);

const groups = published({
  what: 'groups of a modulated current',
  source: 'IEC 61000-4-7:2002 + A1:2008, on lines known by trigonometry',
  unit: 'A',
});
const currents = published({ what: 'line current, P/(η √3 V PF)', source: 'arithmetic', unit: 'A' });

describe('groups of a modulated line current', () => {
  // Worked: √(100² + 5² + 5²) = 100.2497 A for 5 Hz.
  it('holds side bands of 5 Hz in the subgroup of the fundamental', () => {
    const { rows, cycles_count, bin_Hz } = groupsOf(modulated(50, 0.1, 5), rate_Hz, 50, 5)!;
    expect([cycles_count, bin_Hz]).toEqual([10, 5]);
    close(rows[1]!.subgroup_A, Math.sqrt(100 ** 2 + 5 ** 2 + 5 ** 2));
    groups({
      which: '10 % at 5 Hz, subgroup of 50 Hz',
      expected: 100.2497,
      found: rows[1]!.subgroup_A!,
      tolerance: 1e-6,
    });
    close(rows[0]!.centred_A, 0);
    close(rows[1]!.centred_A, 0);
    // Every bin between the orders counts in the group between them.
    close(rows[0]!.between_A, 5);
  });

  it('finds side bands of 10 Hz in the centred subgroups below and above', () => {
    const { rows } = groupsOf(modulated(50, 0.1, 10), rate_Hz, 50, 5)!;
    close(rows[1]!.subgroup_A, 100);
    groups({ which: '10 % at 10 Hz, below 50 Hz', expected: 5, found: rows[0]!.centred_A!, tolerance: 1e-9 });
    groups({ which: '10 % at 10 Hz, above 50 Hz', expected: 5, found: rows[1]!.centred_A!, tolerance: 1e-9 });
    close(rows[1]!.group_A, Math.sqrt(100 ** 2 + 5 ** 2 + 5 ** 2));
  });

  it('halves by energy what lies on the border of two groups', () => {
    const { rows } = groupsOf(modulated(50, 0.1, 25), rate_Hz, 50, 5)!;
    close(rows[1]!.group_A, Math.sqrt(100 ** 2 + 5 ** 2 / 2 + 5 ** 2 / 2));
    close(rows[2]!.group_A, 5 / Math.SQRT2);
  });

  it('takes 12 cycles at 60 Hz, bins 5 Hz apart', () => {
    const { rows, cycles_count, bin_Hz } = groupsOf(modulated(60, 0.1, 5), rate_Hz, 60, 5)!;
    expect([cycles_count, bin_Hz]).toEqual([12, 5]);
    close(rows[1]!.subgroup_A, Math.sqrt(100 ** 2 + 5 ** 2 + 5 ** 2));
  });

  it('keeps the whole energy in its bins (Parseval)', () => {
    const current = modulated(50, 0.3, 15);
    const { bins_A } = groupsOf(current, rate_Hz, 50, 8)!;
    const inBins = bins_A.reduce((sum, c) => sum + c * c, 0);
    const square = current.reduce((sum, i) => sum + i * i, 0) / current.length;
    expect(Math.abs(inBins / square - 1)).toBeLessThan(1e-12);
  });

  it('leaks where the modulation does not fit the window: 7.5 Hz in 200 ms', () => {
    const { rows } = groupsOf(modulated(50, 0.1, 7.5), rate_Hz, 50, 5)!;
    expect(rows[1]!.centred_A).toBeGreaterThan(1);
    expect(rows[2]!.subgroup_A).toBeGreaterThan(1e-3);
  });

  it('gives nothing for a line of 400 Hz or a stretch below one window', () => {
    expect(groupsOf(modulated(50, 0, 5), rate_Hz, 400, 5)).toBeNull();
    expect(groupsOf(modulated(50, 0, 5).subarray(0, 199), rate_Hz, 50, 5)).toBeNull();
  });
});

describe('line current rebuilt from a power', () => {
  // I = P/(η √3 V_LL PF), to the digits given.
  it.each([
    [36e3, 0.975, 480, 1, 44.412],
    [250e3, 0.97, 400, 0.99, 375.762],
  ])('of %d W at efficiency %d on %d V and PF %d has P/(√3 V PF) as its RMS', (P, eta, V, pf, expected) => {
    const line = { line_Hz: 60, line_voltage_V: V, power_factor_ratio: pf };
    const current = columnOf(lineCurrent(new Float64Array(1000).fill(P / eta), rate_Hz, line));
    let squares = 0;
    for (const i of current) squares += i ** 2;
    const found = Math.sqrt(squares / 1000);
    currents({ which: `${P / 1e3} kW, ${V} V`, expected, found, tolerance: 5e-4 / expected });
  });
});
