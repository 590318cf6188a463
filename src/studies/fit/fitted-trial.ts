import type { Trial } from '../trials/trial.ts';
import type { FitDocument } from './fit-document.ts';

/** The scenario with the values found, as a run. */
export function fittedTrial({ base, changes }: Pick<FitDocument, 'base' | 'changes'>): Trial<'run'> {
  return { kind: 'run', scenario: base.scenario, changes: [...base.changes, ...changes] };
}
