/**
 * A function of the kernel with gaps for what one cabinet's memory gives (`scripts/kernel/linking/`): addresses of columns,
 * counts of units. Filled, each is a constant of its code, where the function for every cabinet fetches it.
 */
import { bytesOf } from '../../base/wasm.ts';

/** As the build writes it: a module, and whole numbers that say what fills its gaps, both in Base64. */
export interface Packed {
  readonly bytes: string;
  readonly ledger: string;
}

/**
 * What a template's symbols come to in one memory. A symbol is a field of a structure, or what the function is handed; one
 * that moves is counted from the structure that is handed over last and stands in several places.
 */
export interface Numbers {
  readonly number: Int32Array;
  readonly moves: Uint8Array;
}

/** Kinds of symbols in a ledger: what may move is reached from the structure that stands in several places. */
const kind = { stays: 0, mayMove: 2 } as const;

/** Kinds of gaps in a ledger. */
const gap = { number: 0, offset: 1, base: 2 } as const;

/** Code of a constant, which stands instead of the parameter where an address is counted from 0. */
const constantCode = 0x41;

/** Bytes of a number's gap. */
const widest = 5;

/** Seven bits a byte, the lowest first; the sign is the lowest of all. */
function numbersOf(base64: string): Int32Array {
  const bytes = bytesOf(base64);
  const numbers = new Int32Array(bytes.length);
  let count = 0;
  for (let at = 0, value = 0, shift = 0; at < bytes.length; at++) {
    value |= (bytes[at]! & 127) << shift;
    shift += 7;
    if (bytes[at]! >= 128) continue;
    numbers[count++] = (value >>> 1) ^ -(value & 1);
    value = 0;
    shift = 0;
  }
  return numbers.subarray(0, count);
}

export class Template {
  private readonly bytes: Uint8Array;
  /** Of each symbol: the one whose structure it stands in (−1: it is handed over), bytes from there or its place, kind. */
  private readonly symbols: Int32Array;
  /** Of each sum: where it begins in `terms`: a number, how many terms, symbol and factor of each. */
  private readonly sums: Int32Array;
  private readonly terms: Int32Array;
  /** Of each gap: bytes from the last one, kind, sum or symbol. */
  private readonly gaps: Int32Array;

  constructor({ bytes, ledger }: Packed) {
    this.bytes = bytesOf(bytes);
    const numbers = numbersOf(ledger);
    const symbolCount = numbers[0]!;
    this.symbols = numbers.subarray(1, 1 + 3 * symbolCount);
    let at = 1 + 3 * symbolCount;
    this.sums = new Int32Array(numbers[at++]!);
    const start = at;
    for (let k = 0; k < this.sums.length; k++) {
      this.sums[k] = at - start;
      at += 2 + 2 * numbers[at + 1]!;
    }
    this.terms = numbers.subarray(start, at);
    this.gaps = numbers.subarray(at + 1, at + 1 + 3 * numbers[at]!);
  }

  /** What every symbol is where the function is handed these addresses. */
  private values(words: Int32Array, handed: readonly number[]): Int32Array {
    const { symbols } = this;
    const values = new Int32Array(symbols.length / 3);
    for (let k = 0; k < values.length; k++) {
      const of = symbols[3 * k]!;
      const at = symbols[3 * k + 1]!;
      values[k] = of < 0 ? handed[at]! : words[(values[of]! + at) >> 2]!;
    }
    return values;
  }

  /**
   * The numbers for one memory. `handed`: addresses; where one of the structures stands in several places, `again` has it in
   * another. Null where its places differ in more than where they begin.
   */
  numbers(words: Int32Array, handed: readonly number[], again: readonly number[] = handed): Numbers | null {
    const number = this.values(words, handed);
    const other = this.values(words, again);
    const moves = new Uint8Array(number.length);
    const moved = handed.findIndex((address, k) => address !== again[k]);
    const from = handed[moved] ?? 0;
    const by = (again[moved] ?? 0) - from;
    for (let k = 0; k < number.length; k++) {
      if (other[k] === number[k]) continue;
      if (this.symbols[3 * k + 2] !== kind.mayMove || other[k]! - number[k]! !== by) return null;
      moves[k] = 1;
      number[k]! -= from;
    }
    return { number, moves };
  }

  /** Whether the numbers hold as well where the function is handed these addresses, the structure that moves at `place`. */
  holds({ number, moves }: Numbers, words: Int32Array, handed: readonly number[], place: number): boolean {
    const values = this.values(words, handed);
    for (let k = 0; k < values.length; k++) if (values[k] !== number[k]! + moves[k]! * place) return false;
    return true;
  }

  /** The module with its gaps filled; null where an offset would be below zero, which none can be. */
  filled({ number, moves }: Numbers): Uint8Array | null {
    const { sums, terms, gaps } = this;
    const bytes = this.bytes.slice();
    const values = sums.map((start) => {
      let value = terms[start]!;
      for (let k = 0; k < terms[start + 1]!; k++)
        value += terms[start + 3 + 2 * k]! * number[terms[start + 2 + 2 * k]!]!;
      return value;
    });
    for (let k = 0, at = 0; k < gaps.length; k += 3) {
      at += gaps[k]!;
      const of = gaps[k + 2]!;
      if (gaps[k + 1] === gap.base) {
        if (moves[of] === 0) bytes.set([constantCode, 0], at);
        continue;
      }
      const value = values[of]!;
      if (gaps[k + 1] === gap.offset && value < 0) return null;
      for (let b = 0; b < widest - 1; b++) bytes[at + b] = ((value >> (7 * b)) & 127) | 128;
      bytes[at + widest - 1] = (value >> (7 * (widest - 1))) & (gaps[k + 1] === gap.offset ? 15 : 127);
    }
    return bytes;
  }
}
