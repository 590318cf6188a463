import { describe, expect, it } from 'vitest';
import { Growing } from '../../../src/engine/meters/growing.ts';

describe('a growing column', () => {
  it('gives back all it was given, in order, and goes on', () => {
    const column = new Growing();
    const many = 300_000;
    for (let k = 0; k < many; k++) column.push(k);
    expect(column.length).toBe(many);
    expect(column.values()).toEqual(Float64Array.from({ length: many }, (_, k) => k));
    column.push(-1);
    expect(column.length).toBe(many + 1);
    expect(column.values()[many]).toBe(-1);
  });

  it('holds no more than its numbers once it is read', () => {
    const column = new Growing();
    for (let k = 0; k < 70_000; k++) column.push(k);
    expect(column.values().buffer.byteLength).toBe(8 * 70_000);
  });
});
