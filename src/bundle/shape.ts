/**
 * Shapes of JSON: each reads a value, gives it with its type, or throws with the place and what belongs there. A
 * bundle's own files are checked by them, for sums can be made right again over text that is not.
 */
import { BadInput } from '../base/problem.ts';

/** `path`: where the value stands, for example `wake.channels.3.id`. */
export type Shape<T> = (value: unknown, path: string) => T;

/** Thrown by a shape; `fitted` makes a problem of it. */
class Misshapen extends Error {
  readonly path: string;
  readonly found: string;
  readonly expected: string;

  constructor(path: string, value: unknown, expected: string) {
    super(`${path}: ${expected}`);
    this.path = path;
    this.found = value === undefined ? 'nothing' : (JSON.stringify(value)?.slice(0, 80) ?? typeof value);
    this.expected = expected;
  }
}

/** The value of `file` in the shape, or BadInput at the first place that does not fit. */
export function fitted<T>(shape: Shape<T>, value: unknown, file: string): T {
  try {
    return shape(value, '');
  } catch (error) {
    if (!(error instanceof Misshapen)) throw error;
    throw new BadInput([
      {
        severity: 'error',
        file,
        path: error.path,
        found: error.found,
        expected: error.expected,
        mend: 'the file was changed after it was written: run the scenario again with --out',
      },
    ]);
  }
}

export const text: Shape<string> = (value, path) => {
  if (typeof value !== 'string') throw new Misshapen(path, value, 'a text');
  return value;
};

export const finite: Shape<number> = (value, path) => {
  if (typeof value !== 'number' || !Number.isFinite(value)) throw new Misshapen(path, value, 'a number');
  return value;
};

/** 0, 1, 2 … */
export const count: Shape<number> = (value, path) => {
  if (typeof value !== 'number' || !Number.isSafeInteger(value) || value < 0)
    throw new Misshapen(path, value, 'a whole number of 0 or more');
  return value;
};

export const truth: Shape<boolean> = (value, path) => {
  if (typeof value !== 'boolean') throw new Misshapen(path, value, 'true or false');
  return value;
};

/** Any value at all, its type left open. */
export const whatever: Shape<unknown> = (value) => value;

/** A text of a certain form; `means` names the form. */
export function matching(form: RegExp, means: string): Shape<string> {
  return (value, path) => {
    if (typeof value !== 'string' || !form.test(value)) throw new Misshapen(path, value, means);
    return value;
  };
}

export function oneOf<const T extends string>(...words: readonly T[]): Shape<T> {
  return (value, path) => {
    const word = words.find((known) => known === value);
    if (word === undefined) throw new Misshapen(path, value, `one of ${words.join(', ')}`);
    return word;
  };
}

export function exactly(number: number): Shape<number> {
  return (value, path) => {
    if (value !== number) throw new Misshapen(path, value, String(number));
    return number;
  };
}

export function orNull<T>(shape: Shape<T>): Shape<T | null> {
  return (value, path) => (value === null ? null : shape(value, path));
}

/** A field that may be left out. */
export function maybe<T>(shape: Shape<T>): Shape<T | undefined> {
  return (value, path) => (value === undefined ? undefined : shape(value, path));
}

export function pairOf<T>(item: Shape<T>): Shape<readonly [T, T]> {
  return (value, path) => {
    const [one, other, ...more] = listOf(item)(value, path);
    if (one === undefined || other === undefined || more.length > 0)
      throw new Misshapen(path, value, 'two values');
    return [one, other];
  };
}

export function listOf<T>(item: Shape<T>): Shape<readonly T[]> {
  return (value, path) => {
    if (!Array.isArray(value)) throw new Misshapen(path, value, 'a list');
    return value.map((one: unknown, k) => item(one, below(path, String(k + 1))));
  };
}

type Fields = Readonly<Record<string, Shape<unknown>>>;
type FieldsOf<F extends Fields> = { readonly [K in keyof F]: ReturnType<F[K]> };

/** An object with these fields and no others. */
export function record<F extends Fields>(fields: F): Shape<FieldsOf<F>> {
  const partly = holding(fields);
  return (value, path) => {
    const read = partly(value, path);
    for (const key of Object.keys(value as object))
      if (!Object.hasOwn(fields, key)) throw new Misshapen(below(path, key), key, 'no such field');
    return read;
  };
}

/** An object with these fields at least; others are not looked at and not given. */
export function holding<F extends Fields>(fields: F): Shape<FieldsOf<F>> {
  return (value, path) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value))
      throw new Misshapen(path, value, `an object with ${Object.keys(fields).join(', ')}`);
    const found = new Map<string, unknown>(Object.entries(value));
    return Object.fromEntries(
      Object.entries(fields).map(([key, shape]) => [key, shape(found.get(key), below(path, key))]),
    ) as FieldsOf<F>;
  };
}

function below(path: string, key: string): string {
  return path === '' ? key : `${path}.${key}`;
}
