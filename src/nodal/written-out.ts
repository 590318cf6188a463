/**
 * The solve of one network written out as WebAssembly: every operation of its sweeps in a row, on values that stay in
 * registers, where a loop fetches two places and waits for what it has just stored. The same operations in the same order
 * as the loop's, so the same bits. The factor is handed over, so one module serves steps of every length.
 */
import type { Ordering } from './ordering.ts';

/** Most nodes that are written out: code grows with them, and the loop's share of a step falls. */
export const mostWrittenOut = 256;

/** What the written-out solve is exported and imported as. */
export const writtenOutName = 'solve';

/** Parameters of the solve: addresses of D⁻¹, L, the voltages and the currents. Behind them stand the unknowns. */
const parameter = { d: 0, l: 1, v: 2, rhs: 3 } as const;
const firstUnknown = 4;

const section = { type: 1, import: 2, function: 3, export: 7, code: 10 } as const;
const type = { i32: 0x7f, f64: 0x7c, function: 0x60 } as const;
const op = {
  end: 0x0b,
  get: 0x20,
  set: 0x21,
  load: 0x2b,
  store: 0x39,
  subtract: 0xa1,
  multiply: 0xa2,
} as const;

/** A whole number as WebAssembly writes it: seven bits a byte, the lowest first. */
function whole(value: number): number[] {
  const bytes: number[] = [];
  let left = value;
  do {
    const more = left > 127 ? 128 : 0;
    bytes.push((left & 127) | more);
    left >>>= 7;
  } while (left > 0);
  return bytes;
}

const text = (letters: string): number[] => [
  ...whole(letters.length),
  ...[...letters].map((c) => c.charCodeAt(0)),
];
const listed = (items: readonly number[][]): number[] => [...whole(items.length), ...items.flat()];
const sized = (bytes: readonly number[]): number[] => [...whole(bytes.length), ...bytes];

/** On the stack: the k-th number behind an address; the address must stand there for a store. */
const behind = (code: number, k: number): number[] => [code, 3, ...whole(8 * k)];
const loaded = (at: number, k: number): number[] => [op.get, at, ...behind(op.load, k)];

/** The operations of a solve, as one function's body. */
function body({ count, node, sweeps }: Ordering): number[] {
  const get = (j: number): number[] => [op.get, ...whole(firstUnknown + j)];
  const set = (j: number): number[] => [op.set, ...whole(firstUnknown + j)];
  const places = Array.from({ length: count }, (_, j) => j);
  const operation = (k: number): number[] => {
    const target = sweeps.target[k]!;
    const product = [...loaded(parameter.l, sweeps.entry[k]!), ...get(sweeps.source[k]!), op.multiply];
    return [...get(target), ...product, op.subtract, ...set(target)];
  };
  const operations = Array.from({ length: sweeps.count }, (_, k) => operation(k));
  return [
    ...listed([[...whole(count), type.f64]]),
    ...places.flatMap((j) => [...loaded(parameter.rhs, node[j]!), ...set(j)]),
    ...operations.slice(0, sweeps.forwardCount).flat(),
    ...places.flatMap((j) => [...get(j), ...loaded(parameter.d, j), op.multiply, ...set(j)]),
    ...operations.slice(sweeps.forwardCount).flat(),
    ...places.flatMap((j) => [op.get, parameter.v, ...get(j), ...behind(op.store, node[j]!)]),
    op.end,
  ];
}

/** A module that exports the solve, over the memory `env.memory`. */
export function writtenOut(ordering: Ordering): Uint8Array {
  const parameters = Object.keys(parameter).map(() => [type.i32]);
  const parts: readonly (readonly [id: number, content: number[]])[] = [
    [section.type, listed([[type.function, ...listed(parameters), ...listed([])]])],
    [section.import, listed([[...text('env'), ...text('memory'), 2, 0, 1]])],
    [section.function, listed([[0]])],
    [section.export, listed([[...text(writtenOutName), 0, 0]])],
    [section.code, listed([sized(body(ordering))])],
  ];
  return Uint8Array.from([
    ...[0, 0x61, 0x73, 0x6d, 1, 0, 0, 0],
    ...parts.flatMap(([id, content]) => [id, ...sized(content)]),
  ]);
}
