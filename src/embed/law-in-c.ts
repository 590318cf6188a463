/** A law of the firmware as C99: what the build makes of its TypeScript (`scripts/c99/`), and what it takes. */

import type { Slot } from './fixed/slot.ts';

/** A field or a parameter: its name, and `number`, `Int`, `boolean`, the name of a column or of a structure. */
export type Member = readonly [name: string, kind: string];

export interface LawInC {
  /** The same on fixed point: where formats stand its texts have places, by number (`fixed/filled.ts`). */
  readonly fixed: { readonly header: string; readonly source: string; readonly slots: readonly Slot[] };
  /** Name of the law's files. */
  readonly file: string;
  readonly header: string;
  readonly source: string;
  /** Structures by their names, fields in their order. */
  readonly structures: Readonly<Record<string, readonly Member[]>>;
  /** The function that runs the law, and what it takes, in its order. */
  readonly runs: string;
  readonly parameters: readonly Member[];
  /** Files that any of it stands in, from the project's folder. */
  readonly sources: readonly string[];
}

/** The elements of columns, as C names them. */
export const elementInC: Readonly<Record<string, string>> = {
  Float64Array: 'double',
  Int32Array: 'int32_t',
  Uint8Array: 'uint8_t',
};
