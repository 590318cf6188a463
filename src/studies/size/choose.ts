/** Which of the candidates that were tried is the answer, and where levers are pulled. */
import type { Change } from '../../scenario/scenario.ts';
import { isAlike } from '../search/alike.ts';
import type { ValuesByPath } from '../search/axes.ts';
import { situationOf } from '../search/candidates.ts';
import type { SearchResult, Tried } from '../search/least-passing.ts';
import { worstOf } from '../search/never-clears.ts';
import type { StudyFile } from '../written/study-file.ts';
import type { SizePlan } from './plan.ts';

export interface Answer {
  /** Row of the answer, or of what came nearest. */
  readonly row: number;
  readonly found: SearchResult;
  /** What is varied, where something passes. */
  readonly result: ValuesByPath | null;
  /** Where levers are pulled: one step below the answer, or where the search came nearest. */
  readonly pulledAt: {
    readonly row: number;
    readonly place: number;
    readonly values: ValuesByPath;
    readonly changes: readonly Change[];
  };
}

/** `founds`: what the search along each row found. */
export function answerAmong({ study, rows, last }: SizePlan, founds: readonly SearchResult[]): Answer {
  const firsts = rows.map(({ first }) => first);
  const chosen = choose(study, founds, firsts, last.values);
  const row = chosen ?? nearestRow(founds);
  const { values, changes } = rows[row]!;
  const found = founds[row]!;
  const at = last.ordered || found.least === null ? pullFrom(found, last.values.length) : found.least;
  return {
    row,
    found,
    result: chosen === null ? null : values[found.least!]!,
    pulledAt: { row, place: at, values: values[at]!, changes: changes[at]! },
  };
}

/** Row of the answer: the first that has one, or the least product of both values. Null where nothing passes. */
function choose(
  study: StudyFile,
  founds: readonly SearchResult[],
  firsts: readonly (string | null)[],
  values: readonly string[],
): number | null {
  const able = founds.flatMap(({ least }, k) => (least === null ? [] : [{ k, least }]));
  if (able.length === 0) return null;
  if (study.words.get('least') !== 'product') return able[0]!.k;
  const product = ({ k, least }: { k: number; least: number }): number =>
    Number.parseFloat(firsts[k] ?? '1') * Number.parseFloat(values[least]!);
  return able.reduce((a, b) => (product(b) < product(a) ? b : a)).k;
}

/** Least candidate from which on no limit is broken in a situation. */
export function leastIn(name: string, { tried }: SearchResult, values: readonly string[]): string | null {
  let from: number | null = null;
  for (const [k, { headrooms }] of [...tried].reverse()) {
    if ([...headrooms].some(([key, headroom]) => situationOf(key) === name && headroom < 0)) break;
    from = k;
  }
  return from === null ? null : values[from]!;
}

/** With what passes and leaves most headroom in the place of the least. */
export function roomiest(found: SearchResult): SearchResult {
  const able = [...found.tried].filter(([, { passes: good }]) => good);
  if (able.length === 0) return { ...found, least: null };
  const [least] = alikeBest(able)[0]!;
  return { ...found, least, reversed: [] };
}

/** Those with the most headroom, in the order in which they were asked for: more than one where they are alike. */
function alikeBest<T extends readonly [number, Tried]>(able: readonly T[]): readonly T[] {
  const best = Math.max(...able.map(([, one]) => worstOf(one)));
  return able.filter(([, one]) => isAlike(worstOf(one), best));
}

/** Values that are as roomy as the answer's, in their order; none where what is varied goes from less to more. */
export function alikeWith(found: SearchResult, { ordered, values }: SizePlan['last']): readonly string[] {
  if (ordered || found.least === null) return [];
  const able = [...found.tried].filter(([, { passes }]) => passes);
  return alikeBest(able).flatMap(([k]) => (k === found.least ? [] : [values[k]!]));
}

/** Among rows without an answer the one whose best candidate came nearest. */
function nearestRow(founds: readonly SearchResult[]): number {
  const best = founds.map(({ tried }) => Math.max(...[...tried.values()].map(worstOf)));
  return best.indexOf(Math.max(...best));
}

/** Where levers are pulled: one step below the answer, or where a search without one came nearest. */
function pullFrom({ least, tried }: SearchResult, count: number): number {
  if (least !== null) return Math.max(0, least - 1);
  const rows = [...tried];
  const best = Math.max(...rows.map(([, one]) => worstOf(one)));
  return rows.find(([, one]) => worstOf(one) === best)?.[0] ?? count - 1;
}
