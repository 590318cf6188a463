/** The solve written out for a network against the loops: the same bits; and the loops against the matrix they are factored from. */
import { describe, expect, it } from 'vitest';
import { wasm } from '../../src/base/wasm.ts';
import { Random } from '../../src/loads/random.ts';
import { Joints } from '../../src/nodal/joints.ts';
import { NodalMatrix } from '../../src/nodal/matrix.ts';
import { NodeVoltages } from '../../src/nodal/node-voltages.ts';
import { order } from '../../src/nodal/ordering.ts';
import { writtenOut, writtenOutName } from '../../src/nodal/written-out.ts';

/** A chain of nodes with some that close loops, its conductances drawn at random. */
function factored(count: number, seed: number) {
  const dice = new Random(seed);
  const pairs = Array.from({ length: count - 1 }, (_, k) => [k, k + 1] as const);
  for (let k = 0; k + 5 < count; k += 3) pairs.push([k, k + 5]);
  const matrix = new NodalMatrix(order(count, pairs));
  const dense = Array.from({ length: count }, () => new Float64Array(count));
  for (const [a, b] of pairs) {
    const g = 0.1 + dice.uniform();
    matrix.addBetween(a, b, g);
    dense[a]![a]! += g;
    dense[b]![b]! += g;
    dense[a]![b]! -= g;
    dense[b]![a]! -= g;
  }
  for (let k = 0; k < count; k++) {
    matrix.addToGround(k, 0.5);
    dense[k]![k]! += 0.5;
  }
  matrix.begin();
  matrix.factor();
  // Units between nodes and units at one, several of them at some nodes and none at others.
  const drawn = (): Int32Array =>
    Int32Array.from({ length: 2 * count }, () => Math.floor(dice.uniform() * count));
  const between = { from: drawn(), into: drawn() };
  const single = { into: drawn() };
  const joints = new Joints(count, [between, single]);
  const current = Float64Array.from({ length: joints.unitCount }, () => dice.uniform() - 0.5);
  const rhs = new Float64Array(count);
  current.forEach((i, unit) => {
    if (unit < 2 * count) {
      rhs[between.from[unit]!]! -= i;
      rhs[between.into[unit]!]! += i;
    } else rhs[single.into[unit - 2 * count]!]! += i;
  });
  return { matrix, dense, rhs, ordering: order(count, pairs), joints, current };
}

describe.each([1, 2, 20, 57, 200])('the solve of %i nodes', (count) => {
  const { matrix, dense, rhs, ordering, joints, current } = factored(count, count);
  const v = new Float64Array(count);
  new NodeVoltages(joints).walk(v, matrix, current);

  it('gives voltages whose currents are those asked for', () => {
    dense.forEach((row, k) => {
      const current = row.reduce((sum, g, n) => sum + g * v[n]!, 0);
      expect(Math.abs(current - rhs[k]!)).toBeLessThan(1e-12);
    });
  });

  it('gives the same bits written out', () => {
    const memory = new wasm!.Memory({ initial: 1 });
    const columns = [matrix.d, matrix.l, new Float64Array(count), current];
    let at = 8;
    const placed = columns.map((column) => {
      const here = new Float64Array(memory.buffer, at, column.length);
      here.set(column);
      at += column.byteLength;
      return here;
    });
    const { exports } = new wasm!.Instance(new wasm!.Module(writtenOut(ordering, joints)), {
      env: { memory },
    });
    const solve = (exports as Record<string, (...addresses: number[]) => void>)[writtenOutName]!;
    solve(...placed.map(({ byteOffset }) => byteOffset));
    expect([...placed[2]!]).toEqual([...v]);
  });
});
