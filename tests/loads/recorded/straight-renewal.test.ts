/** A recording that was filled up by straight lines shows no more than its readings did. */
import { describe, expect, it } from 'vitest';
import { readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import { busy } from '../../samples/signs/known-signal.ts';

const device = busy(3000);
const source = { file: 'filled.csv', sha256: '0' };

/** One reading every `times` rows of 1 ms, straight lines between, written with so many decimals. */
function filled(times: number, decimals: number): string {
  const rows = Array.from({ length: 20_000 }, (_, k) => {
    const at = Math.floor(k / times);
    const part = (k % times) / times;
    const power = (1 - part) * device[at % 3000]! + part * device[(at + 1) % 3000]!;
    return `${(k / 1000).toFixed(3)},${power.toFixed(decimals)}`;
  });
  return `time_s,P_W\n${rows.join('\n')}\n`;
}

const statementOf = (text: string) => readRecorded(text, source).statement;

describe('a recording filled up by straight lines', () => {
  it.each([
    [2, 12],
    [4, 3],
    [20, 1],
    [50, 2],
  ])('of %i rows for a reading, %i decimals', (times, decimals) => {
    const { bandwidth_Hz, bandwidth_by } = statementOf(filled(times, decimals));
    expect(bandwidth_by).toBe('renewal');
    expect(bandwidth_Hz).toBeCloseTo((0.44 * 1000) / times, 6);
  });
});

describe('a recording of its own rate', () => {
  const of = (power: (k: number) => number): string =>
    `time_s,P_W\n${Array.from({ length: 20_000 }, (_, k) => `${(k / 1000).toFixed(3)},${power(k).toFixed(2)}`).join('\n')}\n`;

  it.each([
    ['noise', (k: number) => device[k % 3000]!],
    ['a triangle', (k: number) => 500 + 10 * Math.abs((k % 80) - 40)],
    ['pulses with straight edges', (k: number) => 100 + 50 * Math.min(k % 80, 4, Math.max(0, 64 - (k % 80)))],
    ['a sine', (k: number) => 500 + 300 * Math.sin(k / 40)],
  ])('%s keeps its bandwidth', (_, power) => {
    expect(statementOf(of(power)).bandwidth_by).toBe('rate');
  });
});
