/** Limits that a matrix shows of every cell, whether they decide it or not. */
import { BadInput } from '../../base/problem.ts';
import type { Limit } from '../../limits/limit.ts';
import { nearestOr } from '../../scenario/text/nearest.ts';
import type { RunOutcome, TrialFinding } from '../trials/run-outcome.ts';
import type { StudyFile } from '../written/study-file.ts';

/** Names of limits, as the study writes them with commas between. Throws BadInput for one that the scenario has not. */
export function shownOf(study: StudyFile, limits: readonly Pick<Limit, 'id'>[]): readonly string[] {
  const text = study.words.get('shows');
  if (text === undefined) return [];
  const ids = [...new Set(limits.map(({ id }) => id))];
  const asked = [...new Set(text.split(',').map((id) => id.trim()))];
  const unknown = asked.filter((id) => !ids.includes(id));
  if (unknown.length === 0) return asked;
  throw new BadInput(
    unknown.map((id) => ({
      severity: 'error' as const,
      path: 'shows',
      found: id === '' ? 'nothing between two commas' : id,
      expected: 'names of limits of the scenario, with commas between',
      mend: nearestOr('name one of them', id, ids),
    })),
  );
}

/** What a run found of these limits, in their order; what does not arise is left out. */
export function findingsShown({ findings }: RunOutcome, shows: readonly string[]): readonly TrialFinding[] {
  return shows.flatMap((id) => findings.find((one) => one.id === id) ?? []);
}
