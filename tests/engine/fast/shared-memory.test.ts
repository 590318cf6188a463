/** Objects in the kernel's memory: laid out as the build says, each once, and nothing put there that does not belong. */
import { describe, expect, it } from 'vitest';
import { wasm } from '../../../src/base/wasm.ts';
import { bytesOf, type Layouts, SharedMemory } from '../../../src/engine/fast/shared-memory.ts';

const layouts: Layouts = {
  Pair: [
    ['count', 'i32'],
    ['scale', 'f64'],
    ['node', 'I32s'],
    ['left', 'Side'],
    ['right', 'Side'],
  ],
  Side: [
    ['value', 'F64s'],
    ['flag', 'U8s'],
  ],
};

const side = (value: Float64Array) => ({ value, flag: Uint8Array.of(1, 0, 1) });

function pair() {
  const one = side(Float64Array.of(1, 2, 3));
  return { count: 3, scale: 0.1, node: Int32Array.of(7, 8, 9), left: one, right: one, name: 'not kept' };
}

describe('SharedMemory', () => {
  it('lays out numbers by value, columns and objects by address, each on a multiple of its size', () => {
    const shared = new SharedMemory(wasm!, layouts, 1000);
    const of = pair();
    const at = shared.place(of, 'Pair');
    const view = new DataView(shared.memory.buffer);
    expect(view.getInt32(at, true)).toBe(3);
    expect(view.getFloat64(at + 8, true)).toBe(0.1);
    expect(view.getUint32(at + 16, true)).toBe(of.node.byteOffset);
    expect(view.getUint32(at + 20, true)).toBe(shared.place(of.left, 'Side'));
    expect([...of.node, ...of.left.value, ...of.left.flag]).toEqual([7, 8, 9, 1, 2, 3, 1, 0, 1]);
    expect(of.left.value.buffer).toBe(shared.memory.buffer);
  });

  it('places what two share once: an object, and a column under two names', () => {
    const shared = new SharedMemory(wasm!, layouts, 1000);
    const value = Float64Array.of(4, 5, 6);
    const of = { ...pair(), left: side(value), right: side(value) };
    shared.place(of, 'Pair');
    expect(of.left.value).toBe(of.right.value);
    expect(shared.place(of, 'Pair')).toBe(shared.place(of, 'Pair'));
  });

  it('takes as many bytes as it foresees', () => {
    const shared = new SharedMemory(wasm!, layouts, 1000);
    const foreseen = bytesOf(layouts, pair(), 'Pair');
    const of = pair();
    const from = shared.place(of, 'Pair');
    const next = side(new Float64Array(0));
    expect(shared.place(next, 'Side') - from).toBe(foreseen);
  });

  it.each([
    ['a number that is none', { count: '3' }, 'count is not the i32 that the kernel expects'],
    ['a column that is missing', { node: null }, 'node is not the I32s that the kernel expects'],
    [
      'a column of another kind',
      { node: Float64Array.of(1) },
      'node is not the I32s that the kernel expects',
    ],
    ['more than it holds', { node: new Int32Array(40_000) }, "the kernel's memory of 65536 bytes is full"],
  ])('refuses %s', (_, wrong, message) => {
    const shared = new SharedMemory(wasm!, layouts, 1000);
    expect(() => shared.place({ ...pair(), ...wrong }, 'Pair')).toThrow(message);
  });

  it('refuses a structure that the build does not know', () => {
    const shared = new SharedMemory(wasm!, layouts, 1000);
    expect(() => shared.place(pair(), 'Triple')).toThrow('the kernel knows no structure Triple');
  });
});
