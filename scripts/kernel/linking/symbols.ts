/**
 * What is known of a cabinet's memory before there is a cabinet: fields of structures, reached from what a function is
 * handed. A symbol is such a field's number or address; a sum of symbols is an address that stands once they do.
 */
import type { Layout } from '../translate.ts';

export interface Symbol {
  /** The symbol whose structure this is a field of; null for what the function is handed. */
  readonly of: number | null;
  /** Bytes from the structure's beginning to the field. Of what is handed over: the parameter's place. */
  readonly at: number;
  /** As layouts name types. */
  readonly type: string;
  /** It is reached from a structure that stands in several places: so may it. */
  readonly mayMove: boolean;
}

/** Σ factor × symbol + plus. */
export interface Sum {
  readonly terms: ReadonlyMap<number, number>;
  readonly plus: number;
}

export const none: Sum = { terms: new Map(), plus: 0 };

export const plain = (plus: number): Sum => ({ terms: none.terms, plus: plus | 0 });

export const isPlain = (sum: Sum): boolean => sum.terms.size === 0;

export function added(a: Sum, b: Sum, sign: 1 | -1 = 1): Sum {
  if (isPlain(a) && isPlain(b)) return plain(a.plus + sign * b.plus);
  const terms = new Map(a.terms);
  for (const [symbol, factor] of b.terms) {
    const both = (terms.get(symbol) ?? 0) + sign * factor;
    if (both === 0) terms.delete(symbol);
    else terms.set(symbol, both);
  }
  return { terms, plus: (a.plus + sign * b.plus) | 0 };
}

export function scaled({ terms, plus }: Sum, by: number): Sum {
  return {
    terms: new Map([...terms].map(([symbol, factor]) => [symbol, Math.imul(factor, by)])),
    plus: Math.imul(plus, by),
  };
}

const sizeOf = (type: string): number => (type === 'f64' ? 8 : 4);

export class Symbols {
  readonly all: Symbol[] = [];
  private readonly layouts: Readonly<Record<string, Layout>>;
  private readonly known = new Map<string, number>();

  constructor(layouts: Readonly<Record<string, Layout>>) {
    this.layouts = layouts;
  }

  /** What a function is handed. */
  root(parameter: number, type: string, mayMove: boolean): number {
    return this.add({ of: null, at: parameter, type, mayMove });
  }

  /** The field that stands `at` bytes into the structure of a symbol; null where none of its fields does. */
  field(of: number, at: number): number | null {
    const { type: structure, mayMove } = this.all[of]!;
    let bytes = 0;
    for (const [, type] of this.layouts[structure] ?? []) {
      const size = sizeOf(type);
      bytes = Math.ceil(bytes / size) * size;
      if (bytes === at && type !== 'f64') return this.add({ of, at, type, mayMove });
      bytes += size;
    }
    return null;
  }

  sum(symbol: number): Sum {
    return { terms: new Map([[symbol, 1]]), plus: 0 };
  }

  /** The parameter that a symbol is reached from. */
  parameterOf(symbol: number): number {
    const { of, at } = this.all[symbol]!;
    return of === null ? at : this.parameterOf(of);
  }

  /** The one symbol that an address lies behind, and how far: null for a sum of others. */
  behind({ terms, plus }: Sum): { readonly symbol: number; readonly at: number } | null {
    const [term, ...others] = terms;
    return term === undefined || others.length > 0 || term[1] !== 1 ? null : { symbol: term[0], at: plus };
  }

  private add(symbol: Symbol): number {
    const key = `${symbol.of} ${symbol.at}`;
    const known = this.known.get(key);
    if (known !== undefined) return known;
    this.known.set(key, this.all.length);
    this.all.push(symbol);
    return this.all.length - 1;
  }
}
