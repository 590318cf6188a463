/** A register of 16 bits that wraps counts the peaks of a load below 0: left out, its energy would be 40 % short. */
import { describe, expect, it } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import { readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import { busy } from '../../samples/signs/known-signal.ts';

const load = busy(400);
/** Three in ten samples lie beyond what 16 bits hold. */
const scale = 32767 / load.toSorted()[Math.floor(0.7 * load.length)]!;
const power_W = Array.from(load, (value) => Math.round(scale * value));

function read(values: readonly number[]): string {
  const text = `time_s,power_W\n${values.map((value, k) => `${k / 50},${value}\n`).join('')}`;
  try {
    readRecorded(text, { file: 'a.csv', sha256: '' });
    return 'read';
  } catch (error) {
    if (error instanceof BadInput)
      return error.problems.map(({ found, mend }) => `${found}; ${mend}`).join(' ');
    throw error;
  }
}

const wrapped = (value: number): number => (value > 32767 ? value - 65536 : value);

describe('powers below 0', () => {
  it('of a register that wraps are refused, with what to add', () => {
    const values = power_W.map(wrapped);
    const below = values.filter((value) => value < 0).length;
    expect(below).toBeGreaterThan(20);
    expect(2 * below).toBeLessThan(values.length);
    expect(read(values)).toMatch(/^negative powers in \d+ of \d+ samples of power_W, down to -\d.*16 bits/);
    expect(read(power_W)).toBe('read');
  });

  it('that are noise about 0, a few, or one number that stands for no reading, are left out as before', () => {
    expect(read(power_W.map((value, k) => (k % 9 === 0 ? -5 - (k % 7) : value)))).toBe('read');
    expect(read(power_W.map((value, k) => (k === 70 ? -20_000 : k === 200 ? -19_000 : value)))).toBe('read');
    expect(read(power_W.map((value, k) => (k % 40 === 0 ? -9999 : value)))).toBe('read');
  });
});
