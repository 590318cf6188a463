/**
 * What an expression is in a loop that is taken two turns at once: the same in both, or a pair, one for each turn.
 * Everything is text of AssemblyScript. A pair of floats or flags is a `v128`; a pair of whole numbers is two, which
 * stand by themselves as long as they only point at places.
 */

export type Value =
  /** The loop's counter and a whole number on top of it. */
  | { readonly is: 'place'; readonly offset: string }
  | { readonly is: 'whole' | 'number' | 'flag' | 'held'; readonly text: string }
  | { readonly is: 'flags'; readonly text: string }
  /** `counted`: the same as whole numbers, where they are literals that may be either. */
  | { readonly is: 'numbers'; readonly text: string; readonly counted?: string }
  | { readonly is: 'wholes'; readonly text: string; readonly each?: readonly [string, string] };

export type Pair = Extract<Value, { is: 'numbers' | 'flags' | 'wholes' }>;

/** Why a loop is not taken two turns at once. It is no error: the loop stays as it is. */
export class Refusal extends Error {}

export const isPair = (value: Value): value is Pair =>
  value.is === 'numbers' || value.is === 'flags' || value.is === 'wholes';

/** Both whole numbers of a pair, each for itself. */
export function eachOf(value: Value): readonly [string, string] {
  if (value.is === 'wholes')
    return (
      value.each ?? [`<i32>i64x2.extract_lane(${value.text}, 0)`, `<i32>i64x2.extract_lane(${value.text}, 1)`]
    );
  if (value.is === 'whole') return [value.text, value.text];
  if (value.is === 'numbers' && value.counted !== undefined)
    return eachOf({ is: 'wholes', text: value.counted });
  throw new Refusal(`a ${value.is} is no whole number`);
}

/** A value as a pair of floats. */
export function asNumbers(value: Value): string {
  if (value.is === 'numbers') return value.text;
  if (value.is === 'number' || value.is === 'whole') return `f64x2.splat(${value.text})`;
  throw new Refusal(`a ${value.is} is no number`);
}

/** A value as a pair of whole numbers of 64 bits. */
export function asWholes(value: Value): string {
  if (value.is === 'wholes') return value.text;
  if (value.is === 'whole' || value.is === 'number') return `i64x2.splat(<i64>(${value.text}))`;
  if (value.is === 'numbers' && value.counted !== undefined) return value.counted;
  throw new Refusal(`a ${value.is} is no whole number`);
}

/** A value as a mask: all bits where it holds. A number holds where it is not 0. */
export function asFlags(value: Value): string {
  if (value.is === 'flags') return value.text;
  if (value.is === 'flag') return `i64x2.splat(<i64>-(<i32>(${value.text})))`;
  if (value.is === 'wholes') return `i64x2.ne(${value.text}, i64x2.splat(0))`;
  throw new Refusal(`a ${value.is} is no flag`);
}

/** One of two values, by a mask. */
export function chosen(mask: string, yes: Value, no: Value): Pair {
  if (yes.is === 'flags' || no.is === 'flags' || yes.is === 'flag' || no.is === 'flag')
    return { is: 'flags', text: `v128.bitselect(${asFlags(yes)}, ${asFlags(no)}, ${mask})` };
  if (yes.is === 'wholes' || no.is === 'wholes' || (yes.is === 'whole' && no.is === 'whole'))
    return { is: 'wholes', text: `v128.bitselect(${asWholes(yes)}, ${asWholes(no)}, ${mask})` };
  const text = `v128.bitselect(${asNumbers(yes)}, ${asNumbers(no)}, ${mask})`;
  if (!mayCount(yes) || !mayCount(no)) return { is: 'numbers', text };
  return { is: 'numbers', text, counted: `v128.bitselect(${asWholes(yes)}, ${asWholes(no)}, ${mask})` };
}

/** Literals, and choices among them, may count. */
function mayCount(value: Value): boolean {
  if (value.is === 'numbers') return value.counted !== undefined;
  return value.is === 'number' && /^\d+$/.test(value.text);
}
