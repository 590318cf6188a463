/** Rows of several devices under one name are refused with the way out, and never merged to their mean. */
import { describe, expect, it } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import { readRecorded } from '../../../src/loads/recorded/read-recorded.ts';

const source = { file: 'mixed.csv', sha256: '0' };

function foundIn(text: string): string {
  try {
    readRecorded(text, source);
  } catch (error) {
    if (error instanceof BadInput) return error.problems.map(({ found }) => found).join('; ');
    throw error;
  }
  return '';
}

const power = (k: number, base: number): string => (base + 40 * Math.sin(k / 7)).toFixed(2);

/** Rows of 20 s, two devices each in its turn by `block` rows, the second 4.3 ms later. */
function inBlocks(block: number): string {
  const lines = ['time_s,serial,P_W'];
  for (let from = 0; from < 1000; from += block)
    for (const [serial, later, base] of [
      ['A17', 0, 500],
      ['A18', 0.0043, 700],
    ] as const)
      for (let k = from; k < from + block; k++)
        lines.push(`${(0.02 * k + later).toFixed(4)},${serial},${power(k, base)}`);
  return lines.join('\n');
}

/** Rows that alternate between two labels at stamps of their own. */
function alternating(head: string, first: string, second: string): string {
  const lines = [head];
  for (let k = 0; k < 500; k++) {
    lines.push(`${(0.02 * k).toFixed(3)},${first},${power(k, 500)}`);
    lines.push(`${(0.02 * k + 0.01).toFixed(3)},${second},${power(k, 100)}`);
  }
  return lines.join('\n');
}

describe('rows of several devices', () => {
  it.each([
    [250, 'jump back and run again over'],
    [50, 'a column serial with 2 values that come again and again'],
  ])('in blocks of %i rows', (block, told) => {
    expect(foundIn(inBlocks(block))).toContain(told);
  });

  it('six runs that begin at 0 s each', () => {
    const rows = Array.from({ length: 1200 }, (_, k) => `${(0.02 * (k % 200)).toFixed(3)},${power(k, 500)}`);
    expect(foundIn(['time_s,P_W', ...rows].join('\n'))).not.toBe('');
  });

  it.each([
    ['kind', 'accelerator', 'fan'],
    ['location', 'left', 'right'],
    ['machine', 'm1', 'm2'],
  ])('under an unknown column %s whose labels alternate', (column, first, second) => {
    expect(foundIn(alternating(`time_s,${column},P_W`, first, second))).toBe(
      `a column ${column} with 2 values that come again and again`,
    );
  });

  it('of the same number on two machines', () => {
    expect(foundIn(alternating('time_s,gpu,machine,P_W', '0,m1', '0,m2'))).toContain(
      'machine with 2 values that come again and again in rows of one gpu',
    );
  });
});

describe('one device', () => {
  it('with a state that changes now and then, or words that follow its load, is read', () => {
    const rows = Array.from({ length: 1000 }, (_, k) => {
      const busy = k % 50 < 35;
      return `${(0.02 * k).toFixed(2)},${busy ? 'busy' : 'idle'},${power(k, busy ? 700 : 100)}`;
    });
    expect(foundIn(['time_s,state,P_W', ...rows].join('\n'))).toBe('');
  });

  it('whose rows were written in blocks out of order is sorted', () => {
    const rows = Array.from({ length: 1000 }, (_, k) => `${(0.02 * k).toFixed(2)},${power(k, 500)}`);
    const blocks = Array.from({ length: 10 }, (_, b) => rows.slice(100 * b, 100 * (b + 1)));
    const turned = blocks.flatMap((_, b) => blocks[b ^ 1]!);
    expect(foundIn(['time_s,P_W', ...turned].join('\n'))).toBe('');
  });
});
