/** The requirements that a run is to be judged by, before anything is known of it. */
import { scaleOf } from '../../limits/absolute.ts';
import { limitText } from '../../scenario/sections/limit-differences.ts';
import type { Requirement } from '../../scenario/specification/requirement.ts';
import type { Stated } from '../record/stated.ts';
import type { AskedRequirement, Statement } from './line.ts';

/** Undefined where the limits are none of a specification. */
export function askedOf(scenario: Stated): Statement | undefined {
  const { specification, id, batteries } = scenario;
  if (specification === undefined) return undefined;
  const { file, title, requirements } = specification;
  return {
    file,
    title,
    runs: [id],
    carries: batteries.length > 0,
    conditions: [],
    lines: requirements.map((requirement) => ({
      requirement: askedFrom(requirement, scenario),
      state: 'open',
      worst: null,
      shown: [],
      not_shown: [],
      conditions: [],
      because: null,
    })),
  };
}

function askedFrom(requirement: Requirement, scenario: Stated): AskedRequirement {
  const { judged } = requirement;
  const row = scenario.limits.find(({ id }) => id === judged?.limit);
  if (judged === null || row === undefined) return { ...requirement, SI_per_unit: null, altered: null };
  const other = judged.columns.filter((column) => row[column] !== judged.value);
  const stays = row.stay_s !== judged.stay_s;
  const altered = [
    ...other.map((column) => `${column} ${limitText(row[column], row.unit)}`),
    ...(stays ? [`stay ${row.stay_s} s`] : []),
  ];
  return {
    ...requirement,
    SI_per_unit: judged.per_unit * scaleOf(row, scenario).factor,
    altered: altered.length === 0 ? null : altered.join(', '),
  };
}
