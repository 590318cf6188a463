import { BadInput } from '../../../base/problem.ts';
import type { StudyFile } from '../../written/study-file.ts';
import { wholeNumber } from '../../written/whole-number.ts';
import { firstOf } from './rare.ts';

/** What is asked of a small probability. */
export interface RareAsked {
  /** Runs in all, the plain samples that it begins with among them. */
  readonly runs: number;
  readonly samples: number;
}

/** Runs below which a level has too few points to walk on from. */
const leastRuns = 200;

/** null: nothing is. Throws BadInput where words contradict it. */
export function rareAsked(study: StudyFile): RareAsked | null {
  if (!study.words.has('rare')) return null;
  const runs = wholeNumber(study, 'rare', 2000, leastRuns, 100_000);
  const against = [
    'samples',
    'half_width',
    ...(study.words.get('sampling') === 'latin-hypercube' ? ['sampling'] : []),
  ];
  const problems = against
    .filter((key) => study.words.has(key))
    .map((key) => ({
      severity: 'error' as const,
      path: key,
      found: `${key} ${study.words.get(key)} beside rare`,
      expected: 'a search for what fails that begins with plain samples, a quarter of its runs',
      mend: `leave out ${key}, or rare`,
    }));
  if (problems.length > 0) throw new BadInput(problems);
  return { runs, samples: firstOf(runs) };
}
