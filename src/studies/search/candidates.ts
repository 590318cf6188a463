/** Candidates of a search: one value for each path that is varied, tried in every situation that must pass. */

import type { Change } from '../../scenario/scenario.ts';
import { decidedBy, passes, type RunOutcome, roomOf } from '../trials/run-outcome.ts';
import type { RunWhole, Trial } from '../trials/trial.ts';
import type { Situation } from '../written/situations.ts';
import type { Tried, TryCandidates } from './least-passing.ts';

export interface Candidate {
  readonly changes: readonly Change[];
  readonly outcomes: readonly RunOutcome[];
}

/** The trials of a candidate, one for each situation. */
export function trialsOf(
  situations: readonly Situation[],
  changes: readonly Change[],
): readonly Trial<'run'>[] {
  return situations.map(({ scenario, before, after }) => ({
    kind: 'run',
    scenario,
    changes: [...before, ...changes, ...after],
  }));
}

/** Tries candidates by running them; keeps what came out in `seen`, by the text of their changes. */
export function trier(
  situations: readonly Situation[],
  changesAt: (index: number) => readonly Change[],
  run: RunWhole,
  seen: Map<string, Candidate>,
): TryCandidates {
  return async (indices) => {
    const trials = indices.flatMap((k) => trialsOf(situations, changesAt(k)));
    const outcomes = await run(trials);
    return indices.map((k, j) => {
      const own = outcomes.slice(j * situations.length, (j + 1) * situations.length);
      const changes = changesAt(k);
      seen.set(textOf(changes), { changes, outcomes: own });
      return triedOf(situations, own);
    });
  };
}

export function textOf(changes: readonly Change[]): string {
  return changes.map(({ path, value }) => `${path} = ${value}`).join(', ');
}

/**
 * Headroom by limit and situation: `ac-ramp-100ms in idle to full`. The verdict decides on which side of 0 it lies, so
 * that a limit that is kept on a tie is kept in the search too; of two columns of a limit the tighter counts.
 */
export function triedOf(situations: readonly Situation[], outcomes: readonly RunOutcome[]): Tried {
  const headrooms = new Map<string, number>();
  for (const [k, outcome] of outcomes.entries()) {
    const { name } = situations[k]!;
    for (const { id, verdict, headroom_ratio } of outcome.findings) {
      if (verdict !== 'pass' && verdict !== 'fail') continue;
      const room = roomOf({ verdict, headroom_ratio: headroom_ratio ?? (verdict === 'pass' ? 1 : -1) });
      const key = constraint(id, name);
      headrooms.set(key, Math.min(room, headrooms.get(key) ?? Number.POSITIVE_INFINITY));
    }
    const decides = passes(outcome) ? 'pass' : 'fail';
    if (!outcome.findings.some(({ verdict }) => verdict === decides)) {
      headrooms.set(constraint(decidedBy(outcome), name), decides === 'pass' ? 1 : -1);
    }
  }
  return { passes: outcomes.every(passes), headrooms };
}

export function constraint(limit: string, situation: string): string {
  return situation === '' ? limit : `${limit} in ${situation}`;
}

/** The limit's id of a constraint. */
export function limitOf(text: string): string {
  return text.split(' in ')[0] ?? text;
}

/** The name of its situation, '' where there is one only. */
export function situationOf(text: string): string {
  return text.slice(limitOf(text).length + ' in '.length);
}
