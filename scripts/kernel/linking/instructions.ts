/** WebAssembly as far as compiled kernels use it: types, instructions, and what each takes from the stack and leaves there. */

import { unsigned } from '../../../src/base/wasm-bytes.ts';

export const type = { i32: 0x7f, i64: 0x7e, f64: 0x7c, v128: 0x7b } as const;
export type Type = number;

/** Behind this prefix stand further codes: copies of memory, lanes. Both are one number here, prefix first. */
export const prefix = { memory: 0xfc, lanes: 0xfd } as const;
export const lanes = (code: number): number => (prefix.lanes << 12) | code;
export const memory = (code: number): number => (prefix.memory << 12) | code;

export const op = {
  unreachable: 0x00,
  block: 0x02,
  loop: 0x03,
  if: 0x04,
  else: 0x05,
  end: 0x0b,
  branch: 0x0c,
  branchIf: 0x0d,
  branchTable: 0x0e,
  return: 0x0f,
  call: 0x10,
  drop: 0x1a,
  select: 0x1b,
  get: 0x20,
  set: 0x21,
  tee: 0x22,
  i32Load: 0x28,
  i32Const: 0x41,
  f64Const: 0x44,
  i32Add: 0x6a,
  i32Subtract: 0x6b,
  i32Multiply: 0x6c,
  i32Shift: 0x74,
  copy: memory(10),
  v128Const: lanes(12),
} as const;

/** The empty type of a block. */
export const noResult = 0x40;

export interface Instruction {
  readonly op: number;
  /** What stands behind the code: an index, a whole number, targets. */
  readonly numbers: readonly number[];
  /** Of a constant or a choice of lanes: its bytes as they stand. */
  readonly bytes: readonly number[];
  /** Of a block, a loop, a branch of `if`: what is in it. */
  readonly body: readonly Instruction[];
  readonly otherwise: readonly Instruction[];
}

/** How an instruction reaches the memory; `data`: it takes a value beside the address. */
export interface Access {
  readonly kind: 'load' | 'store';
  readonly data: boolean;
  readonly leaves: Type | null;
}

const { i32, i64, f64, v128 } = type;

/** Codes from … to, and how they reach the memory. */
const accesses: readonly (readonly [from: number, to: number, Access])[] = [
  [0x28, 0x28, { kind: 'load', data: false, leaves: i32 }],
  [0x2b, 0x2b, { kind: 'load', data: false, leaves: f64 }],
  [0x2c, 0x2f, { kind: 'load', data: false, leaves: i32 }],
  [0x36, 0x36, { kind: 'store', data: true, leaves: null }],
  [0x39, 0x3c, { kind: 'store', data: true, leaves: null }],
  [lanes(0), lanes(10), { kind: 'load', data: false, leaves: v128 }],
  [lanes(92), lanes(93), { kind: 'load', data: false, leaves: v128 }],
  [lanes(11), lanes(11), { kind: 'store', data: true, leaves: null }],
  [lanes(84), lanes(87), { kind: 'load', data: true, leaves: v128 }],
  [lanes(88), lanes(91), { kind: 'store', data: true, leaves: null }],
];

/** Codes from … to, how many values they take, and what they leave. */
const operations: readonly (readonly [from: number, to: number, takes: number, leaves: Type])[] = [
  [0x45, 0x45, 1, i32],
  [0x46, 0x4f, 2, i32],
  [0x61, 0x66, 2, i32],
  [0x67, 0x69, 1, i32],
  [0x6a, 0x78, 2, i32],
  [0x99, 0x9f, 1, f64],
  [0xa0, 0xa6, 2, f64],
  [0xaa, 0xab, 1, i32],
  [0xac, 0xad, 1, i64],
  [0xb7, 0xb8, 1, f64],
  [lanes(13), lanes(14), 2, v128],
  [lanes(15), lanes(20), 1, v128],
  [lanes(27), lanes(27), 1, i32],
  [lanes(28), lanes(28), 2, v128],
  [lanes(29), lanes(29), 1, i64],
  [lanes(30), lanes(30), 2, v128],
  [lanes(33), lanes(33), 1, f64],
  [lanes(34), lanes(34), 2, v128],
  [lanes(35), lanes(76), 2, v128],
  [lanes(77), lanes(77), 1, v128],
  [lanes(78), lanes(81), 2, v128],
  [lanes(82), lanes(82), 3, v128],
  [lanes(83), lanes(83), 1, i32],
  [lanes(116), lanes(117), 1, v128],
  [lanes(122), lanes(122), 1, v128],
  [lanes(174), lanes(174), 2, v128],
  [lanes(177), lanes(177), 2, v128],
  [lanes(206), lanes(206), 2, v128],
  [lanes(209), lanes(209), 2, v128],
  [lanes(214), lanes(219), 2, v128],
  [lanes(236), lanes(237), 1, v128],
  [lanes(239), lanes(239), 1, v128],
  [lanes(240), lanes(247), 2, v128],
];

export function accessOf(code: number): Access | null {
  return accesses.find(([from, to]) => from <= code && code <= to)?.[2] ?? null;
}

/** What a code takes and leaves that neither branches nor reaches the memory; fails for one that is not known here. */
export function operationOf(code: number): { readonly takes: number; readonly leaves: Type } {
  const known = operations.find(([from, to]) => from <= code && code <= to);
  if (known === undefined) throw new Error(`the instruction 0x${code.toString(16)} is not known to linking`);
  return { takes: known[2], leaves: known[3] };
}

/** A number with a sign, seven bits a byte: it ends where the rest is what the sign says. */
export function signed(value: number): number[] {
  const bytes: number[] = [];
  let left = value | 0;
  for (;;) {
    const low = left & 127;
    left >>= 7;
    const isLast = left === ((low & 64) === 0 ? 0 : -1);
    bytes.push(isLast ? low : low | 128);
    if (isLast) return bytes;
  }
}

/** The bytes of a code. */
export function codeOf(code: number): number[] {
  const before = code >> 12;
  return before === 0 ? [code] : [before, ...unsigned(code & 0xfff)];
}
