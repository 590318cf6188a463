import { describe, expect, it } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import type { Curve } from '../../../src/studies/response/curve.ts';
import { layPoints, readPoints } from '../../../src/studies/response/points.ts';

const range = [0.01, 2e4] as const;
const curve: Curve = {
  name: 'load to AC power',
  unit: 'W/W',
  half_sampling_Hz: null,
  frequency_Hz: [1, 10, 100],
  gain_dB: [0, -10, -20],
  phase_deg: [0, -170, -300],
};

function foundIn(work: () => unknown): string[] {
  try {
    work();
  } catch (error) {
    if (error instanceof BadInput) return error.problems.map(({ line, found }) => `${line}: ${found}`);
    throw error;
  }
  return [];
}

describe('measured points of a response', () => {
  it('are read with their lines, the phase left out where it was not measured', () => {
    expect(readPoints('a.csv', 'frequency_Hz;gain_dB;phase_deg\n1;0.5;3\n\n10;-9.8;\n', range)).toEqual([
      { curve: null, line: 2, frequency_Hz: 1, gain_dB: 0.5, phase_deg: 3 },
      { curve: null, line: 4, frequency_Hz: 10, gain_dB: -9.8, phase_deg: null },
    ]);
  });

  it('are each laid beside the model, measured less model, angles to the nearest turn', () => {
    const points = readPoints(
      'a.csv',
      'curve,frequency_Hz,gain_dB,phase_deg\nload to AC power,10,-9.5,185\nload to AC power,100,-21,62\n',
      range,
    );
    const laid = layPoints('a.csv', points, [curve], null);
    expect(laid.map(({ error_dB, error_deg }) => [error_dB, error_deg])).toEqual([
      [0.5, -5],
      [-1, 2],
    ]);
  });

  it('are refused line by line', () => {
    expect(foundIn(() => readPoints('a.csv', 'frequency_Hz,gain_dB\n1,x\n99999,1\n', range))).toEqual([
      '2: x',
      '3: 99999 Hz',
    ]);
    expect(foundIn(() => readPoints('a.csv', 'f,gain\n1,2\n', range))).toEqual(['1: f, gain', '1: f, gain']);
    expect(foundIn(() => readPoints('a.csv', 'frequency_Hz,gain_dB\n', range))).toEqual(['1: no points']);
  });

  it('are refused where nobody says, or wrongly says, which curve they belong to', () => {
    const points = readPoints('a.csv', 'frequency_Hz,gain_dB\n1,2\n10,2\n', range);
    expect(foundIn(() => layPoints('a.csv', points, [curve], null))).toEqual(['2: no curve named']);
    expect(foundIn(() => layPoints('a.csv', points, [curve], 'load'))).toEqual(['2: load', '3: load']);
  });
});
