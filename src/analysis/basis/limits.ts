/**
 * Limits that are not the project's own, each with what it was. Looser ones, removed ones and those that cannot be
 * compared are conditions: a pass by them is not the pass that a reader of the default limits expects. Tighter ones
 * and added ones are told.
 */
import { counted } from '../../base/counted.ts';
import type { LimitEffect } from '../../scenario/sections/limit-differences.ts';
import type { Specification } from '../../scenario/specification/requirement.ts';
import type { BasisEntry } from '../basis.ts';
import type { Stated } from '../record/stated.ts';
import { namedFew } from '../words/named-few.ts';
import { entry } from './entry.ts';

/** Open clauses named before the rest is counted. */
const clausesNamed = 4;

const shipped = 'models/limits-default.yaml';

const isCondition: Readonly<Record<LimitEffect, boolean>> = {
  looser: true,
  removed: true,
  other: true,
  tighter: false,
  added: false,
};

const effectWords: Readonly<Record<LimitEffect, string>> = {
  looser: ' (looser)',
  tighter: ' (tighter)',
  removed: ' (removed)',
  added: ' (added)',
  other: '',
};

export function limitsBasis({
  limits_basis,
  specification,
}: Pick<Stated, 'limits_basis' | 'specification'>): BasisEntry[] {
  const { file, compared, differences } = limits_basis;
  const own = differences.filter(({ by }) => by === file);
  return [
    ...(specification === undefined ? [] : [specified(specification)]),
    ...(compared || specification !== undefined
      ? []
      : [entry('limits', `limits of ${file}, not compared with the shipped ones`)]),
    ...(compared && own.length > 0
      ? [
          entry(
            'limits',
            `limits of ${file}, which differ from the shipped ${shipped} in ${counted(own.length, 'place')}`,
          ),
        ]
      : []),
    ...differences.map(({ limit, what, from, to, by, effect }) =>
      entry('limits', `limit ${limit}, ${what}: ${from} → ${to}${effectWords[effect]}`, {
        by,
        conditions: isCondition[effect],
      }),
    ),
  ];
}

/** What nothing here judges conditions the verdict: a pass is one of the rest. */
function specified({ file, requirements }: Specification): BasisEntry {
  const open = requirements.filter(({ judged }) => judged === null).map(({ clause }) => clause);
  const all = counted(requirements.length, 'requirement');
  const what = `${all} of ${file} in place of limits of our own`;
  if (open.length === 0) return entry('limits', what);
  const named = namedFew(open, clausesNamed);
  return entry('limits', `${what}; of these ${open.length} open: ${named}`, { conditions: true });
}
