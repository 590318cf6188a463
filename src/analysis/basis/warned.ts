/**
 * What the reader of the files warned of. A fault that falls after the end of the run never happened, so that a pass
 * says nothing about it: a condition. An unusual value is the design's own and is told.
 */

import type { BasisEntry } from '../basis.ts';
import type { Stated } from '../record/stated.ts';
import { entry } from './entry.ts';

const neverHappens = /^events\.\d+\.at$/;

export function warnedBasis({ warnings }: Pick<Stated, 'warnings'>): BasisEntry[] {
  return warnings.map(({ path = '', found, expected, mend, file, line }) =>
    neverHappens.test(path)
      ? entry('warned', `${found} never happened`, {
          by: placeOf(file, line),
          reason: expected,
          conditions: true,
        })
      : entry('warned', `${path === '' ? '' : `${path}: `}${found}; expected: ${expected}`, {
          by: placeOf(file, line),
          reason: mend,
        }),
  );
}

function placeOf(file: string | undefined, line: number | undefined): string | null {
  if (file === undefined) return null;
  return line === undefined ? file : `${file}:${line}`;
}
