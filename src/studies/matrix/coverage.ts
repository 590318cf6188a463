/** What a matrix has tried and what it has not: nobody may take it for more. */
import { namedFew } from '../../analysis/words/named-few.ts';
import { counted } from '../../base/counted.ts';
import type { OccurrenceKind } from '../../scenario/occurrences.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import { eventWords } from '../../scenario/sections/event-fields.ts';
import type { Variant } from '../written/study-file.ts';
import { faultKinds } from './faults.ts';
import { mostSearched } from './moments.ts';

export interface Coverage {
  /** Kinds of fault that are in it, with the units struck and how many there are to strike. */
  readonly kinds: readonly {
    readonly kind: string;
    readonly struck: readonly string[];
    readonly units: number;
  }[];
  /** Kinds of fault that may strike this cabinet and are in no fault of it. */
  readonly kinds_not_run: readonly string[];
  readonly pairs: { readonly run: number; readonly possible: number };
  /** Moments of the cycle that each fault was tried at, before the worst was searched. */
  readonly moments: number;
}

/** `singles`: faults that the study lists; `pairs`: two of them at once, as far as they can be. */
export function coverageOf(
  { eventUnits }: Pick<ReadScenario, 'eventUnits'>,
  singles: readonly Variant[],
  pairs: number,
  moments: number,
): Coverage {
  const struck = new Map<string, Set<string>>();
  for (const { path, value } of singles.flatMap(({ changes }) => changes)) {
    const words = path === 'events.add' ? eventWords(value) : null;
    if (words === null) continue;
    const kind = words.get('what')!;
    struck.set(kind, (struck.get(kind) ?? new Set()).add(words.get('unit')!));
  }
  const able = faultKinds.filter((kind) => eventUnits[kind].length > 0);
  const withEvents = singles.filter(({ changes }) =>
    changes.some(({ path }) => path === 'events.add'),
  ).length;
  return {
    kinds: able.flatMap((kind) => {
      const own = struck.get(kind);
      return own === undefined ? [] : [{ kind, struck: [...own], units: unitsOf(eventUnits, kind) }];
    }),
    kinds_not_run: able.filter((kind) => !struck.has(kind)),
    pairs: { run: pairs, possible: (withEvents * (withEvents - 1)) / 2 },
    moments,
  };
}

/** All together are no unit. */
function unitsOf(eventUnits: ReadScenario['eventUnits'], kind: OccurrenceKind): number {
  return eventUnits[kind].filter((unit) => unit !== 'all').length;
}

/** What was run and what was not, in a sentence or two; `most`: kinds that are named. */
export function coverageWords(
  { kinds, kinds_not_run, pairs, moments }: Coverage,
  most = Number.POSITIVE_INFINITY,
): string {
  const all = kinds.length + kinds_not_run.length;
  const singles = kinds.flatMap(({ struck }) => struck.filter((unit) => unit !== 'all')).length;
  const units = kinds.reduce((sum, one) => sum + one.units, 0);
  const at =
    moments === 1
      ? 'at one moment each, as written'
      : `each at ${moments} moments of the cycle, evenly, and at up to ${mostSearched} more about the worst, which counts`;
  const missing = kinds_not_run.length === 0 ? '' : ` Not run: ${namedFew(kinds_not_run, most)}.`;
  return `Run: ${kinds.length} of ${counted(all, 'kind')} of fault that this cabinet may meet, on ${singles} of the ${units} units that they may strike; ${pairs.run === 0 ? 'none' : pairs.run} of ${counted(pairs.possible, 'pair')} of these faults; ${at}.${missing}`;
}
