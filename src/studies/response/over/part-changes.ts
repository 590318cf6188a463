/** Ends of life and temperatures of a cabinet's parts, as far as its models state them. */

import { type Extreme, type StateKindName, stateKindOf } from '../../../scenario/part-states.ts';
import type { ReadScenario } from '../../../scenario/read.ts';
import type { Change } from '../../../scenario/scenario.ts';
import { modelNoteOf } from '../../../scenario/sheet.ts';

/** Changes of a case; none: new parts at usual temperature. What the user has set is left as it was set. */
export type PartsCase = readonly Change[];

export function partsCases({ cells }: Pick<ReadScenario, 'cells'>, asked: readonly Change[]): PartsCase[] {
  const isSet = (kind: StateKindName): boolean => asked.some(({ path }) => stateKindOf(path) === kind);
  const those = (kind: StateKindName, value: string, extreme: Extreme): PartsCase => {
    if (isSet(kind)) return [];
    const families = [...cells].flatMap(([path, cell]) =>
      (modelNoteOf(cell)?.[extreme] ?? null) === null ? [] : [path.split('.')[0]!],
    );
    return [...new Set(families)].map((family) => ({ path: `${kind}.${family}`, value }));
  };
  const aged = those('ageing', 'end-of-life', 'end_of_life');
  const warm = [those('temperature', 'cold', 'cold'), those('temperature', 'hot', 'hot')].filter(
    (changes) => changes.length > 0,
  );
  return [
    [],
    ...(aged.length > 0 ? [aged] : []),
    ...warm,
    ...(aged.length > 0 ? warm.map((changes) => [...aged, ...changes]) : []),
  ];
}

/** `new, usual temperature`, or `end-of-life, hot`. */
export function partsName(parts: PartsCase): string {
  return parts.length === 0
    ? 'new, usual temperature'
    : [...new Set(parts.map(({ value }) => value))].join(', ');
}
