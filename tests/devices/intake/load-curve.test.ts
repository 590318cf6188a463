/** Line current by load: the curve between its points, and the current of a shelf whose model has them. */
import { describe, expect, it } from 'vitest';
import { LoadCurve } from '../../../src/devices/intake/load-curve.ts';
import { run } from '../../../src/run.ts';
import { powerFactors, tangents } from '../../../src/scenario/derived/line-current-points.ts';
import { weakFeeder } from '../../engine/weak-feeder.ts';

const byLoad = {
  'shelves.power_factor': '0.99',
  'shelves.S1.model': 'models/shelf-36kw-by-load.yaml',
  'feeders.gives_way': '0',
};

const shelfWith = (changes: Readonly<Record<string, string>>) =>
  weakFeeder(5, {
    load: '{ kind: constant, power: 6 kW }',
    changes: { 'feeders.short_circuit_power': '10 MVA', ...changes },
  });

describe('a value by load', () => {
  const curve = new LoadCurve([
    [0.8, 0.9, 0.95, 1],
    [1, 1, 1, 1],
  ]);
  it.each([
    [0.05, 0.8],
    [0.1, 0.8],
    [0.15, 0.85],
    [0.2, 0.9],
    [0.35, 0.925],
    [0.5, 0.95],
    [0.75, 0.975],
    [1, 1],
    [1.2, 1],
  ])('is straight between its points: at %s', (load, value) => {
    expect(curve.at(0, load)).toBeCloseTo(value, 12);
    expect(curve.at(1, load)).toBe(1);
  });

  it('is flat where no point differs from the others', () => {
    expect(curve.isFlat).toBe(0);
    expect(new LoadCurve([[0.99, 0.99, 0.99, 0.99]]).isFlat).toBe(1);
  });
});

describe('a shelf whose model has its line current by load', () => {
  it('leaves out what is as at the next load above', () => {
    const { values } = shelfWith({ 'shelves.power_factor': '0.98', 'shelves.power_factor_fifth': '0.9' })
      .shelves[0]!;
    expect(powerFactors(values)).toEqual([0.9, 0.9, 0.98, 0.98]);
  });

  it('has the phase of its fundamental from power factor and distortion: PF = cos φ/√(1 + THD²)', () => {
    const { values } = shelfWith(byLoad).shelves[0]!;
    const [tenth] = tangents(values);
    expect(Math.cos(Math.atan(tenth))).toBeCloseTo(0.88 * Math.sqrt(1 + 0.18 ** 2), 12);
  });

  it('takes RMS current by the power factor at its load, and its finding tells the distortion', () => {
    const scenario = shelfWith(byLoad);
    const { result, report } = run(scenario, null);
    const mean = (id: string): number => result.means.columns.get(id)!.at(-1)!;
    const P = mean('F1.ac_power_W');
    const factor = 0.88 + (0.95 - 0.88) * (P / 36e3 - 0.1) * 10;
    expect(mean('total.line_current_A')).toBeCloseTo(P / (Math.sqrt(3) * 400 * factor), 6);
    const finding = report.findings.find(({ id }) => id === 'line-current-short')!;
    expect(finding.value! * 250).toBeCloseTo(mean('total.line_current_A'), 6);
    expect(finding.reason).toMatch(/at the mean load of 17.\d % its THD is 12 %, power factor 0.9\d\d/);
  });

  it('is refused with more distortion than its power factor leaves room for', () => {
    expect(() => shelfWith({ 'shelves.power_factor': '0.99', 'shelves.current_distortion': '30 %' })).toThrow(
      /at most 95.783 % with a THD of 30 %/,
    );
  });
});
