/** The numbers of a structure of a law, one by one: their names as C writes them, and their values now. */
import type { LawInC } from './law-in-c.ts';
import { elementInC } from './law-in-c.ts';

/** A field that holds numbers: one, or a column of them. */
export interface Leaf {
  /** Its way from the structure, as C writes it behind a name: `trim_V`, `columns->esr_ohm`. */
  readonly path: readonly string[];
  readonly kind: string;
  /** `Structure.field`, or the name alone of a column that is no structure's. */
  readonly field: string;
  /** How many numbers; null where it is one and no column. */
  readonly length: number | null;
  read(k: number): number;
}

type Held = Readonly<Record<string, unknown>>;

/** Fields of `object`, whose structure `name` is, in the order in which they are declared. */
export function leavesOf({ structures }: LawInC, name: string, object: object): Leaf[] {
  const walk = (of: string, at: Held, path: readonly string[]): Leaf[] =>
    structures[of]!.flatMap(([field, kind]) =>
      kind in structures
        ? walk(kind, at[field] as Held, [...path, field])
        : [leaf(at, field, kind, [...path, field], `${of}.${field}`)],
    );
  return walk(name, object as Held, []);
}

/** A field is read anew each time: what it holds may have been replaced. */
export function leaf(
  at: Held,
  field: string,
  kind: string,
  path: readonly string[],
  name: string = field,
): Leaf {
  if (!(kind in elementInC)) return { path, kind, field: name, length: null, read: () => Number(at[field]) };
  return {
    path,
    kind,
    field: name,
    length: (at[field] as ArrayLike<number>).length,
    read: (k) => (at[field] as ArrayLike<number>)[k]!,
  };
}

/** Names of a leaf's numbers: `trim_V[0]`. */
export function namesOf({ path, length }: Leaf): string[] {
  const name = path.join('.');
  return length === null ? [name] : Array.from({ length }, (_, k) => `${name}[${k}]`);
}

/** Its numbers now. */
export function valuesOf({ length, read }: Leaf): number[] {
  return Array.from({ length: length ?? 1 }, (_, k) => read(k));
}
