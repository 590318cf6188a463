/**
 * Requirements as the tree of a limits file: what stands behind that (changes, judging, places in errors) is what it is for
 * limits of our own. Clauses on one quantity, side, stay and band are the columns of one row.
 */

import type { Problem } from '../../base/problem.ts';
import { formatQuantity } from '../../base/quantity.ts';
import { contentOfStay, isQuantityName, quantities } from '../limit-quantities.ts';
import type { LimitColumn } from '../sections/limit-differences.ts';
import { limitColumns } from '../sections/limit-rows.ts';
import { type Branch, type KeyedValue, type Leaf, problemAt } from '../text/document.ts';
import type { Origin } from '../text/origin.ts';
import type { ReadRequirement } from './read-requirement.ts';
import type { RequirementLimit } from './requirement.ts';

/** Requirements of one limit row, by the column that each states. */
interface Group {
  readonly first: ReadRequirement;
  readonly clauses: ReadRequirement[];
  readonly columns: Map<LimitColumn, ReadRequirement>;
}

export interface SpecifiedLimits {
  readonly tree: Branch;
  /** Every requirement with the row that it became part of. */
  readonly requirements: readonly ReadRequirement[];
}

/** Clauses that contradict each other are problems. */
export function asLimits(
  file: string,
  read: readonly ReadRequirement[],
  problems: Problem[],
): SpecifiedLimits {
  const groups = new Map<string, Group>();
  const requirements = read.map((one) => {
    const { judged } = one.requirement;
    if (judged === null || one.row === null) return one;
    const key = keyOf(one, judged);
    const group: Group = groups.get(key) ?? { first: one, clauses: [], columns: new Map() };
    groups.set(key, group);
    group.clauses.push(one);
    for (const column of judged.columns) {
      const other = group.columns.get(column);
      if (other === undefined) group.columns.set(column, one);
      else if (other.requirement.judged!.value !== judged.value)
        problems.push(contradiction(one, other, column));
    }
    const { limit } = group.first.requirement.judged!;
    return { ...one, requirement: { ...one.requirement, judged: { ...judged, limit } } };
  });
  problems.push(...impossible([...groups.values()]));
  const origin: Origin = { file, line: 1, column: 1 };
  const rows = branch(
    origin,
    [...groups.values()].map((group) => [group.first.requirement.judged!.limit, rowOf(group)] as const),
  );
  const name: Leaf = { kind: 'leaf', text: file, origin };
  return {
    tree: branch(origin, [
      ['limits', name],
      ['rows', rows],
    ]),
    requirements,
  };
}

/** A share and an absolute number of one quantity are two rows. */
function keyOf({ requirement, row }: ReadRequirement, { side, stay_s, band_Hz }: RequirementLimit): string {
  return [requirement.metric, row!.unit, side, stay_s, ...(band_Hz ?? [])].join(' ');
}

function rowOf({ first, clauses, columns }: Group): Branch {
  const { requirement, cells, row } = first;
  const { side, stay_s, band_Hz } = requirement.judged!;
  const leaf = (text: string, { origin }: Leaf = cells.clause): Leaf => ({ kind: 'leaf', text, origin });
  const said = (words: (one: ReadRequirement) => string): string =>
    [...new Set(clauses.map(words))].join('; ');
  const needs_Hz = needsOf(first);
  return branch(cells.clause.origin, [
    [
      'title',
      leaf(
        said((one) => one.requirement.words),
        cells.requirement,
      ),
    ],
    ['quantity', leaf(requirement.metric, cells.metric)],
    ['side', leaf(side, cells.bound)],
    ['unit', leaf(row!.unit, cells.bound)],
    ...limitColumns.map((column) => {
      const one = columns.get(column);
      return [column, one === undefined ? leaf('none') : leaf(one.row!.text, one.cells.bound)] as const;
    }),
    ...(stay_s === null ? [] : [['stay', leaf(cells.stay.text, cells.stay)] as const]),
    ...(band_Hz === null ? [] : [['band', leaf(cells.band.text, cells.band)] as const]),
    ...(needs_Hz === null ? [] : [['needs', leaf(formatQuantity(needs_Hz, 'frequency'))] as const]),
    ['source', leaf('published', cells.source)],
    [
      'citation',
      leaf(
        said((one) => `${one.requirement.source}, clause ${one.requirement.clause}`),
        cells.source,
      ),
    ],
  ]);
}

function needsOf({ requirement: { metric, judged } }: ReadRequirement): number | null {
  const { stay_s, band_Hz } = judged!;
  if (!isQuantityName(metric)) return null;
  const { needs_Hz, band_to_Hz } = quantities[metric];
  if (typeof quantities[metric].stay === 'number') return needs_Hz;
  if (stay_s !== null && stay_s > 0) return contentOfStay / stay_s;
  // Swings that a cabinet keeps up by itself are no content of the load.
  if (band_Hz !== null && metric.startsWith('ac-') && band_to_Hz !== null) return band_Hz[1];
  return needs_Hz;
}

function branch(origin: Origin, entries: readonly (readonly [string, Leaf | Branch])[]): Branch {
  const keyed = entries.map(([key, node]): [string, KeyedValue] => [key, { node, keyOrigin: node.origin }]);
  return { kind: 'branch', entries: new Map(keyed), origin };
}

function contradiction(one: ReadRequirement, other: ReadRequirement, column: LimitColumn): Problem {
  return problemAt(
    one.cells.bound.origin,
    `clause ${one.requirement.clause}, bound`,
    `${one.requirement.bound}, where clause ${other.requirement.clause} in line ${other.requirement.line} asks for ${other.requirement.bound} of the same (${column})`,
    'one bound for one thing',
    'ask which of the two holds, and keep that one',
  );
}

/** A lowest above a highest of the same quantity and stay: nothing could keep both. */
function impossible(groups: readonly Group[]): Problem[] {
  const sideless = ({ first }: Group): string =>
    keyOf(first, { ...first.requirement.judged!, side: 'upper' });
  const found: Problem[] = [];
  for (const lower of groups) {
    if (lower.first.requirement.judged!.side !== 'lower') continue;
    const upper = groups.find(
      (group) => group.first.requirement.judged!.side === 'upper' && sideless(group) === sideless(lower),
    );
    for (const [column, low] of lower.columns) {
      const high = upper?.columns.get(column);
      if (high === undefined || low.requirement.judged!.value <= high.requirement.judged!.value) continue;
      found.push(contradiction(low, high, column));
    }
  }
  return found;
}
