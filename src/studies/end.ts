/** How a study ends: its own answer first, then what kept it from one. */
import type { States } from './trials/states.ts';

export type End = 'passed' | 'failed' | 'numerical' | 'inconclusive';

/** `answered`: a search found its answer, every cell of a matrix passes. */
export function endOf({ failed, collapsed, numerical, inconclusive }: States, answered: boolean): End {
  if (answered) return 'passed';
  if (failed + collapsed > 0) return 'failed';
  if (numerical > 0) return 'numerical';
  return inconclusive > 0 ? 'inconclusive' : 'failed';
}
