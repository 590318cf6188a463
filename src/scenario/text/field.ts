/** One value of the user's files: what it may be, and how its text is read and checked. */
import type { Problem } from '../../base/problem.ts';
import { formatQuantity, nameOf, readQuantity } from '../../base/quantity.ts';
import type { ParameterSpec } from '../parameter.ts';
import { problemAt } from './document.ts';
import { listed, nearestWords } from './nearest.ts';
import type { Origin } from './origin.ts';

export type FieldSpec =
  /** With `none`, the word none is a value too: null. */
  | { readonly kind: 'quantity'; readonly spec: ParameterSpec; readonly none?: true }
  | { readonly kind: 'choice'; readonly of: readonly string[]; readonly means: string }
  | { readonly kind: 'flag'; readonly means: string }
  | { readonly kind: 'text'; readonly means: string };

/** `null`: an optional value that nobody gave. */
export type FieldValue = number | string | boolean | null;

export function quantity(spec: ParameterSpec): FieldSpec {
  return spec.optional === true ? { kind: 'quantity', spec, none: true } : { kind: 'quantity', spec };
}

/**
 * Reads the text of a field. On trouble adds what is wrong to `problems` and gives undefined; a legal value
 * outside the usual range adds a warning and is kept.
 */
export function readField(
  text: string,
  field: FieldSpec,
  path: string,
  origin: Origin | null,
  problems: Problem[],
): FieldValue | undefined {
  const refuse = (found: string, expected: string, mend: string): undefined => {
    problems.push(problemAt(origin, path, found, expected, mend));
    return undefined;
  };
  switch (field.kind) {
    case 'quantity': {
      if (field.none === true && text === 'none') return null;
      const reading = readQuantity(text, field.spec.dimension);
      if (!reading.ok) return refuse(reading.found, reading.expected, reading.mend);
      return bounded(text, reading.value, field.spec, path, origin, problems) ? reading.value : undefined;
    }
    case 'choice': {
      if (field.of.includes(text)) return text;
      if (field.of.length === 0)
        return refuse(text, `${field.means}; there is none to name`, 'declare it first, or leave this out');
      const near = nearestWords(text, field.of, 1)[0];
      return refuse(
        text === '' ? 'nothing' : text,
        listed(field.of),
        near === undefined ? `write one of them` : `did you mean ${near}?`,
      );
    }
    case 'flag':
      if (text === 'true' || text === 'yes') return true;
      if (text === 'false' || text === 'no') return false;
      return refuse(text === '' ? 'nothing' : text, 'true or false', 'write true or false');
    case 'text':
      return text === '' ? refuse('nothing', field.means, 'write it after the colon') : text;
    default:
      return field satisfies never;
  }
}

/** Tells whether a value may be what `spec` describes: impossible ones are problems, unusual ones warnings. `text`: as it is shown. */
export function bounded(
  text: string,
  value: number,
  spec: ParameterSpec,
  path: string,
  origin: Origin | null,
  problems: Problem[],
): boolean {
  const show = (x: number): string => formatQuantity(x, spec.dimension);
  const low = spec.exclusive === true ? value <= spec.min : value < spec.min;
  if (low || value > spec.max) {
    const bound = low
      ? `${spec.exclusive === true ? 'above' : 'of at least'} ${spec.min === 0 ? '0' : show(spec.min)}`
      : `of at most ${show(spec.max)}`;
    problems.push(
      problemAt(
        origin,
        path,
        text,
        `${nameOf(spec.dimension)} ${bound}`,
        spec.usual === undefined
          ? `write the ${spec.means}`
          : `usually ${show(spec.usual[0])} to ${show(spec.usual[1])}${spec.bus === undefined ? '' : ' on a bus of 50 V'}`,
      ),
    );
    return false;
  }
  // What is usual on a bus depends on its nominal voltage: checks/usual-checks.ts.
  if (
    spec.bus === undefined &&
    spec.usual !== undefined &&
    (value < spec.usual[0] || value > spec.usual[1])
  ) {
    problems.push(
      problemAt(
        origin,
        path,
        text,
        `usually ${show(spec.usual[0])} to ${show(spec.usual[1])} (${spec.means})`,
        'keep it if it is meant',
        'warning',
      ),
    );
  }
  return true;
}
