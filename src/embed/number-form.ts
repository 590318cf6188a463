/** How numbers stand in the C that is written: as 64-bit floats, or as words of stated formats. */
import { constant } from './c-number.ts';
import type { Heard } from './heard.ts';
import type { Leaf } from './leaves.ts';

export interface NumberForm {
  /** Type of a number. */
  readonly type: 'double' | 'int32_t';
  /** A law as this form has it. */
  texts(heard: Heard): { readonly header: string; readonly source: string };
  /** What the header of the gains says of their scaling, in lines. */
  readonly scaling: readonly string[];
  /** What that header includes of the compiler's own. */
  readonly includes: readonly string[];
  /** A coefficient. */
  coefficient(x: number, leaf: Leaf, heard: Heard): string;
  /** A time as a constant of that name, without its unit. */
  time(name: string, time_s: number): string;
  /** Times as a table. */
  times(name: string, times_s: readonly number[]): string;
}

export const inFloats: NumberForm = {
  type: 'double',
  texts: ({ inC }) => inC,
  scaling: ['Scaling: none, every number is in SI in a 64-bit float, the unit'],
  includes: ['#include <math.h> /* INFINITY alone: nothing of it is linked */', ''],
  coefficient: constant,
  time: (name, time_s) => `static const double ${name}_s = ${constant(time_s)};`,
  times: (name, times_s) =>
    `static const double ${name}_s[${times_s.length}] = {\n  ${times_s.map(constant).join(',\n  ')},\n};`,
};

/** The element of a column, or a number by itself, in a form. */
export const elementOf = (form: Pick<NumberForm, 'type'>, kind: string): string => {
  if (kind === 'number' || kind === 'Float64Array') return form.type;
  return kind === 'boolean' ? 'bool' : kind === 'Uint8Array' ? 'uint8_t' : 'int32_t';
};
