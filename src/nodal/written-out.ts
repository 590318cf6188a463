/**
 * The solve of one network written out as WebAssembly: the sums of the currents that meet at each node, then every
 * operation of the sweeps in a row, on values that stay in registers, where a loop fetches two places and waits for what
 * it has just stored. The same operations in the same order as the loops', so the same bits. Factor and currents are handed
 * over, so one module serves steps of every length.
 */
import { beginning, listed, section, text, unsigned } from '../base/wasm-bytes.ts';
import type { Joints } from './joints.ts';
import type { Ordering } from './ordering.ts';

/** Most nodes that are written out: code grows with them, and the loop's share of a step falls. */
export const mostWrittenOut = 256;

/** What the written-out solve is exported and imported as. */
export const writtenOutName = 'solve';

/** Parameters of the solve: addresses of D⁻¹, L, the voltages and the units' currents. Behind them stand the unknowns. */
const parameter = { d: 0, l: 1, v: 2, current: 3 } as const;
const firstUnknown = 4;

const type = { i32: 0x7f, f64: 0x7c, function: 0x60 } as const;
const op = {
  end: 0x0b,
  get: 0x20,
  set: 0x21,
  load: 0x2b,
  store: 0x39,
  number: 0x44,
  add: 0xa0,
  subtract: 0xa1,
  multiply: 0xa2,
} as const;

const sized = (bytes: readonly number[]): number[] => [...unsigned(bytes.length), ...bytes];

/** On the stack: the k-th number behind an address; the address must stand there for a store. */
const behind = (code: number, k: number): number[] => [code, 3, ...unsigned(8 * k)];
const loaded = (at: number, k: number): number[] => [op.get, at, ...behind(op.load, k)];

/** On the stack: the sum of the currents that meet at a node, from zero on in their order. */
function met({ start, place }: Joints, node: number): number[] {
  const zero = [op.number, 0, 0, 0, 0, 0, 0, 0, 0];
  const terms = Array.from(place.subarray(start[node]!, start[node + 1]!), (unit) =>
    unit < 0
      ? [...loaded(parameter.current, -1 - unit), op.subtract]
      : [...loaded(parameter.current, unit), op.add],
  );
  return [...zero, ...terms.flat()];
}

/**
 * The operations of a solve, as one function's body. An unknown is summed when it is first needed, scaled when the way back
 * comes to it and stored after each operation on it. Nobody reads it before the last: a store is what keeps V8 from fetching
 * everything first and putting it away again, for it moves no load across one. 0.6 of the time without.
 */
function body({ count, node, sweeps }: Ordering, joints: Joints): number[] {
  const get = (j: number): number[] => [op.get, ...unsigned(firstUnknown + j)];
  const set = (j: number): number[] => [op.set, ...unsigned(firstUnknown + j)];
  const stored = (j: number): number[] => [op.get, parameter.v, ...get(j), ...behind(op.store, node[j]!)];
  const code: number[][] = [];
  const reached = new Set<number>();
  const reach = (j: number): void => {
    if (reached.has(j)) return;
    reached.add(j);
    code.push(met(joints, node[j]!), set(j));
  };
  const operate = (k: number): void => {
    const target = sweeps.target[k]!;
    const product = [...loaded(parameter.l, sweeps.entry[k]!), ...get(sweeps.source[k]!), op.multiply];
    code.push(get(target), product, [op.subtract], set(target), stored(target));
  };
  for (let k = 0; k < sweeps.forwardCount; k++) {
    reach(sweeps.source[k]!);
    reach(sweeps.target[k]!);
    operate(k);
  }
  let k = sweeps.forwardCount;
  for (let j = count - 1; j >= 0; j--) {
    reach(j);
    code.push(get(j), loaded(parameter.d, j), [op.multiply], set(j));
    for (; k < sweeps.count && sweeps.target[k] === j; k++) operate(k);
    code.push(stored(j));
  }
  return [...listed([[...unsigned(count), type.f64]]), ...code.flat(), op.end];
}

/** A module that exports the solve, over the memory `env.memory`. */
export function writtenOut(ordering: Ordering, joints: Joints): Uint8Array {
  const parameters = Object.keys(parameter).map(() => [type.i32]);
  const parts: readonly (readonly [id: number, content: number[]])[] = [
    [section.type, listed([[type.function, ...listed(parameters), ...listed([])]])],
    [section.import, listed([[...text('env'), ...text('memory'), 2, 0, 1]])],
    [section.function, listed([[0]])],
    [section.export, listed([[...text(writtenOutName), 0, 0]])],
    [section.code, listed([sized(body(ordering, joints))])],
  ];
  return Uint8Array.from([...beginning, ...parts.flatMap(([id, content]) => [id, ...sized(content)])]);
}
