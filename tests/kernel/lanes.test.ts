/** Loops in two lanes: which are, and that they give the bits of one turn after the other, for even and odd counts. */
import { beforeAll, describe, expect, it } from 'vitest';
import { compileKernel } from '../../scripts/kernel/compile.ts';
import { translate } from '../../scripts/kernel/translate.ts';
import { wasm } from '../../src/base/wasm.ts';
import { type Layouts, SharedMemory } from '../../src/engine/fast/shared-memory.ts';
import { Row, turn } from './lanes-fixture.ts';

const file = 'tests/kernel/lanes-fixture.ts';

/** The method's loops that are in lanes. */
function lanesIn(text: string, method: string): number {
  const body = text.slice(text.indexOf(`${method}(`));
  return body.slice(0, body.indexOf('\n}')).split('k += 2').length - 1;
}

describe('a loop over units', () => {
  let made: { readonly bytes: Uint8Array; readonly layouts: Layouts };
  beforeAll(async () => {
    made = await compileKernel(file);
  });

  it.each([1, 2, 7, 8])('gives the same bits in two lanes over %i units', (count) => {
    const shared = new SharedMemory(wasm!, made.layouts, 8192);
    const { exports } = new wasm!.Instance(new wasm!.Module(made.bytes), { env: { memory: shared.memory } });
    const { turn: compiledTurn } = exports as { turn: (row: number, v: number, q: number) => number };
    const [plain, compiled] = [new Row(count), new Row(count)];
    const address = shared.place(compiled, 'Row');
    const v = new Float64Array(shared.memory.buffer, 8000, 3);
    for (let round = 0; round < 40; round++) {
      v.set([Math.sin(round), 3 * Math.sin(2 * round), 0.1 * Math.sin(3 * round)]);
      expect(compiledTurn(address, v.byteOffset, 0.7)).toBe(turn(plain, v, 0.7));
      for (const column of ['x', 'into', 'sums', 'branch'] as const)
        expect([...compiled[column]]).toEqual([...plain[column]]);
    }
  });

  it('is in lanes where its turns do not read each other', () => {
    const { text } = translate(file);
    const loops = ['move', 'gather', 'isBeyond', 'chain', 'sweep', 'spill'].map((method) =>
      lanesIn(text, method),
    );
    expect(loops).toEqual([1, 1, 1, 0, 0, 0]);
  });
});
