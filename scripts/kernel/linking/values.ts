/** Values on the stack: how they are made and put together. */
import { unsigned } from '../../../src/base/wasm-bytes.ts';
import type { Code, Value } from './code.ts';
import { codeOf, op, type Type, type as types } from './instructions.ts';
import { added, isPlain, none, type Sum, scaled } from './symbols.ts';

const { i32, i64, f64, v128 } = types;

const fixed = (type: Type, code: Code | null, sum: Sum, name: string): Value => ({
  type,
  code,
  sum,
  fixed: name,
  locals: [],
  readsMemory: false,
});

/** A number or an address that is known once the memory stands. */
export const known = (sum: Sum): Value => fixed(i32, null, sum, '');

/** The address of a structure or column that may stand in several places. */
export const moving = (symbol: number, parameter: number, sum: Sum): Value =>
  fixed(i32, { kind: 'base', symbol, parameter }, sum, `base ${symbol}`);

/** Whether a value may be such an address: it is counted from nothing else. */
export const isOfStructure = ({ code }: Value): boolean =>
  code === null || (typeof code === 'object' && 'kind' in code && code.kind === 'base');

export const constant = (type: Type, code: number, bytes: readonly number[]): Value =>
  fixed(type, [...codeOf(code), ...bytes], none, `${code} ${bytes.join(' ')}`);

/** What a local holds that nothing was put into. */
export function zero(type: Type): Value {
  if (type === i32) return known(none);
  if (type === i64) return constant(i64, 0x42, [0]);
  return type === f64
    ? constant(f64, op.f64Const, new Array<number>(8).fill(0))
    : constant(v128, op.v128Const, new Array<number>(16).fill(0));
}

export const inLocal = (local: number, type: Type): Value => ({
  type,
  code: [op.get, ...unsigned(local)],
  sum: none,
  fixed: null,
  locals: [local],
  readsMemory: false,
});

/** In a place that is written once before it is read: a parameter that is not changed, what was worked out early. */
export const inPlace = (place: number, type: Type): Value =>
  fixed(type, [op.get, ...unsigned(place)], none, `place ${place}`);

/** A value of others. */
export const made = (type: Type, code: Code, from: readonly Value[], sum: Sum = none): Value => ({
  type,
  code,
  sum,
  fixed: null,
  locals: from.flatMap(({ locals }) => locals),
  readsMemory: from.some(({ readsMemory }) => readsMemory),
});

export const isSame = (a: Value | null, b: Value | null): boolean =>
  a === b ||
  (a !== null &&
    b !== null &&
    a.fixed !== null &&
    a.fixed === b.fixed &&
    a.sum.plus === b.sum.plus &&
    a.sum.terms.size === b.sum.terms.size &&
    [...a.sum.terms].every(([symbol, factor]) => b.sum.terms.get(symbol) === factor));

/** The code of a sum, and of a value with its sum. */
const number = (sum: Sum): Code => [op.i32Const, { kind: 'number', sum }];

export function whole({ code, sum }: Value): Code {
  if (code === null) return number(sum);
  return isPlain(sum) && sum.plus === 0 ? code : [code, number(sum), op.i32Add];
}

const isNumber = ({ code, sum }: Value): boolean => code === null && isPlain(sum);

/** Sums, differences and multiples of whole numbers: what is known of them goes on being known. Null for any other operation. */
export function arithmetic(code: number, a: Value, b: Value): Value | null {
  if (code === op.i32Add) {
    const sum = added(a.sum, b.sum);
    if (b.code === null) return { ...a, sum };
    if (a.code === null) return { ...b, sum };
    return made(i32, [a.code, b.code, op.i32Add], [a, b], sum);
  }
  if (code === op.i32Subtract && b.code === null) return { ...a, sum: added(a.sum, b.sum, -1) };
  if (code === op.i32Multiply && a.code === null && isNumber(b)) return known(scaled(a.sum, b.sum.plus));
  if (code === op.i32Multiply && b.code === null && isNumber(a)) return known(scaled(b.sum, a.sum.plus));
  if (code !== op.i32Shift || !isNumber(b)) return null;
  const sum = scaled(a.sum, 1 << b.sum.plus);
  return a.code === null ? known(sum) : made(i32, [a.code, number(b.sum), op.i32Shift], [a], sum);
}

/** Where an access goes: the code of what it counts from, and the offset behind it. */
export function reached(address: Value, offset: number): { readonly from: Code; readonly offset: Sum } {
  const sum = added(address.sum, { ...none, plus: offset });
  // An offset has no sign; one below zero is added beforehand.
  if (isPlain(sum) && sum.plus < 0 && address.code !== null)
    return { from: whole(address), offset: { ...none, plus: offset } };
  return { from: address.code ?? [op.i32Const, 0], offset: sum };
}
