/**
 * A tolerance as written, and the values it stands for:
 *
 *   uniform by 5 %                      the value times 1 ± 5 %, all equally likely
 *   uniform by -10 % to 20 %            unevenly
 *   uniform plus 0.25 %                 0.25 % added or taken away, for values that are offsets and may be 0
 *   uniform from 0.5 ms to 20 ms        whatever the value is
 *   triangular from 8 Hz to 15 Hz       likeliest at the value, or the end that is nearest to it
 *   normal by 3 %                       standard deviation 3 % of the value
 *   lognormal by 30 %                   the value times or over 1.3 at one standard deviation
 *
 * A path that names many units is drawn for each of them, unless `common` stands behind. Counts are drawn whole:
 * `seed: uniform from 1 to 100000` gives each sample random phases, jitters and waits of its own.
 */
import { BadInput, type Problem } from '../../base/problem.ts';
import { type Dimension, exampleOf, formatQuantity, readQuantity } from '../../base/quantity.ts';
import { asWritten, type Cell } from '../../scenario/sheet.ts';
import { type FieldSpec, readField } from '../../scenario/text/field.ts';
import { wholeTicks } from '../../scenario/ticks.ts';
import { inKind } from '../written/values.ts';
import { normalQuantile, triangularQuantile } from './quantile.ts';

export interface Tolerance {
  readonly path: string;
  readonly distribution: 'uniform' | 'triangular' | 'normal' | 'lognormal';
  readonly mode: 'by' | 'plus' | 'from';
  /** Ends of a uniform or triangular deviation; of the others 0 and one standard deviation. */
  readonly low: number;
  readonly high: number;
  readonly common: boolean;
}

/** One number that is drawn: the cells it sets, each from its own value. */
export interface Variable {
  readonly path: string;
  readonly tolerance: Tolerance;
  readonly cells: readonly { readonly path: string; readonly value: number }[];
  readonly dimension: Dimension;
  /** What the cells may hold. */
  readonly field: FieldSpec;
  /** Whole ticks of this length, where the run counts the value in ticks. */
  readonly tick_s: number | null;
}

const form =
  /^(uniform|triangular|normal|lognormal)\s+(by|plus|from)\s+(.+?)(?:\s+to\s+(.+?))?(?:,?\s+(per unit|common))?$/;

/** Throws BadInput. `cells`: of the scenario that the tolerances are about; `known`: every path it has. */
export function variablesOf(
  tolerances: readonly (readonly [path: string, text: string])[],
  cells: ReadonlyMap<string, Cell>,
  tick_s: number,
  unknown: (path: string) => never,
): readonly Variable[] {
  return tolerances.flatMap(([path, text]) => {
    const targets = cells.has(path) ? [path] : [...cells.keys()].filter((cell) => inKind(cell, path));
    if (targets.length === 0) return unknown(path);
    const first = cells.get(targets[0]!)!;
    if (first.field.kind !== 'quantity') return refuse(path, text, 'a value that is no number');
    const { dimension, ticks } = first.field.spec;
    const tolerance = read(path, text, dimension);
    const values = targets.map((target) => {
      const value = asWritten(cells.get(target)!);
      return typeof value === 'number'
        ? { path: target, value }
        : refuse(path, text, `no value at ${target}`);
    });
    // A part of nothing is nothing: every sample would be the same, and look like a finding.
    const still = tolerance.mode === 'by' ? values.find(({ value }) => value === 0) : undefined;
    if (still !== undefined) refuseStill(path, text, still.path, tolerance, dimension);
    const base = { tolerance, dimension, field: first.field, tick_s: ticks === true ? tick_s : null };
    return tolerance.common
      ? [{ ...base, path, cells: values }]
      : values.map((cell) => ({ ...base, path: cell.path, cells: [cell] }));
  });
}

function read(path: string, text: string, dimension: Dimension): Tolerance {
  const words = form.exec(text.trim());
  if (words === null) return refuse(path, text, 'no tolerance');
  const [, distribution, mode, first = '', last, scope] = words as unknown as [
    string,
    Tolerance['distribution'],
    Tolerance['mode'],
    string,
    string?,
    string?,
  ];
  const of = mode === 'by' ? 'ratio' : dimension;
  const number = (word: string): number => {
    const reading = readQuantity(word, of);
    if (reading.ok) return reading.value;
    const own = mode === 'by' ? 'by takes a share' : `${mode} takes the unit of the value`;
    return refuse(path, text, reading.found, `${own}: write it like ${exampleOf(of)}`);
  };
  const common = scope === 'common';
  const a = number(first);
  if (distribution !== 'uniform' && distribution !== 'triangular') {
    if (last !== undefined || mode === 'from') return refuse(path, text, `${distribution} with two ends`);
    if (distribution === 'lognormal' && mode !== 'by') return refuse(path, text, 'lognormal plus');
    if (!(a > 0)) return refuse(path, text, 'a spread that is not above 0');
    return { path, distribution, mode, low: 0, high: a, common };
  }
  if (last === undefined && mode === 'from') return refuse(path, text, 'one end of two');
  const [low, high] = last === undefined ? [-a, a] : [a, number(last)];
  if (!(low < high)) return refuse(path, text, 'ends that do not ascend');
  if (mode === 'by' && low <= -1) return refuse(path, text, 'a deviation that takes the whole value away');
  return { path, distribution, mode, low, high, common };
}

/** Significant digits of what is drawn: finer than any tolerance is known, short enough to print. */
const digits = 6;

/** Values of a variable's cells at a probability between 0 and 1, as the text of a change. */
export function drawnAt(
  variable: Variable,
  probability: number,
): { readonly path: string; readonly value: string }[] {
  const { tolerance, cells, dimension, tick_s } = variable;
  const { distribution, mode, low, high } = tolerance;
  if (dimension === 'count' && mode === 'from') {
    // Every whole number from one end to the other is equally likely.
    const [first, last] = [Math.ceil(low), Math.floor(high)];
    const drawn = Math.min(last, first + Math.floor(probability * (last - first + 1)));
    return cells.map(({ path }) => ({ path, value: String(drawn) }));
  }
  return cells.map(({ path, value }) => {
    const likeliest = mode === 'from' ? value : 0;
    const deviation =
      distribution === 'uniform'
        ? low + probability * (high - low)
        : distribution === 'triangular'
          ? triangularQuantile(probability, low, high, likeliest)
          : high * normalQuantile(probability);
    let drawn: number;
    if (distribution === 'lognormal')
      drawn = value * Math.exp(Math.log1p(high) * normalQuantile(probability));
    else if (mode === 'by') drawn = value * (1 + deviation);
    else if (mode === 'plus') drawn = value + deviation;
    else drawn = deviation;
    if (dimension === 'count') drawn = Math.round(drawn);
    return {
      path,
      value: formatQuantity(onTicks(drawn, tick_s), dimension, tick_s === null ? digits : undefined),
    };
  });
}

/**
 * Problems of what was drawn: values that their parameters cannot hold, one problem for each tolerance with how
 * many there are. Found before anything runs, not hours into it.
 */
export function outOfRange(
  variables: readonly Variable[],
  rows: readonly Float64Array[],
  { first: from, of }: { readonly first: number; readonly of: number } = { first: 1, of: rows.length },
): readonly Problem[] {
  const found = new Map<Tolerance, { count: number; first: number; problem: Problem }>();
  for (const [sample, row] of rows.entries()) {
    for (const [j, variable] of variables.entries()) {
      for (const { path, value } of drawnAt(variable, row[j]!)) {
        const problems: Problem[] = [];
        readField(value, variable.field, path, null, problems);
        const problem = problems.find(({ severity }) => severity === 'error');
        if (problem === undefined) continue;
        const before = found.get(variable.tolerance);
        if (before === undefined) found.set(variable.tolerance, { count: 1, first: sample, problem });
        else before.count += 1;
      }
    }
  }
  return [...found].map(([{ path, distribution }, { count, first, problem }]) => ({
    ...problem,
    path,
    found: `${problem.found} at ${problem.path}, drawn for sample ${first + from} of ${of}${count === 1 ? '' : ` (${count} such values in all)`}`,
    mend:
      distribution === 'normal'
        ? `${problem.mend}; draw it narrower, uniform between ends, or lognormal, which never reaches 0`
        : `${problem.mend}; draw it narrower`,
  }));
}

function onTicks(value: number, tick_s: number | null): number {
  if (tick_s === null) return value;
  const ticks = wholeTicks(value, tick_s) ?? Math.max(1, Math.round(value / tick_s));
  // Twelve digits: a whole number of ticks as a decimal time.
  return Number((ticks * tick_s).toPrecision(12));
}

function refuseStill(
  path: string,
  text: string,
  at: string,
  { distribution }: Tolerance,
  dimension: Dimension,
): never {
  throw new BadInput([
    {
      severity: 'error',
      path,
      found: `${text} of ${at}, which is ${formatQuantity(0, dimension)}`,
      expected: 'a tolerance that moves the value',
      mend:
        distribution === 'lognormal'
          ? 'say by how much it may be off, for example uniform plus …, or uniform from … to …'
          : `write ${text.replace(/\bby\b/, 'plus')} in the unit of the value, or uniform from … to …`,
    },
  ]);
}

const forms =
  'write it like uniform by 5 %, uniform plus -0.25 % to 0.25 %, normal by 3 % or lognormal by 30 %, common';

function refuse(path: string, text: string, found: string, mend = forms): never {
  throw new BadInput([
    {
      severity: 'error',
      path,
      found: `${found} in ${text === '' ? 'nothing' : text}`,
      expected: 'a tolerance',
      mend,
    },
  ]);
}
