/**
 * The next change that would help most: each lever is pulled alone at a candidate that just fails, one step
 * below the answer, and what binds then is told. A study may list its own; these are tried where it does not.
 */

import { isAlike, stepOf } from '../search/alike.ts';
import { wordsOf } from '../search/axes.ts';
import { textOf, trialsOf } from '../search/candidates.ts';
import { bindingOf, decidedBy, passes, tightest } from '../trials/run-outcome.ts';
import { type Letter, worstLetter } from '../trials/states.ts';
import type { RunWhole } from '../trials/trial.ts';
import type { Answer } from './choose.ts';
import type { SizePlan } from './plan.ts';

export interface Lever {
  readonly name: string;
  readonly changes: string;
  readonly at: string;
  /** Every situation passes with it, one step below the answer. */
  readonly passes: boolean;
  readonly letter: Letter;
  readonly tightest_ratio: number;
  readonly without_ratio: number;
  /** What it does to the tightest headroom; differences that the engine cannot tell are none. */
  readonly effect: 'helps' | 'changes nothing' | 'makes it worse';
  readonly binding: string;
}

/** Pulls each lever alone at one candidate, in every situation that can take it. */
export async function pullLevers(
  { levers, situations }: Pick<SizePlan, 'levers' | 'situations'>,
  { values, changes: at }: Pick<Answer['pulledAt'], 'values' | 'changes'>,
  run: RunWhole,
): Promise<readonly Lever[]> {
  if (levers.length === 0) return [];
  const rows = levers.map(({ changes, fits }) =>
    trialsOf(situations, at).map(({ changes: before, ...trial }, k) => ({
      ...trial,
      changes: fits[k] ? [...before, ...changes] : before,
    })),
  );
  const without = await run(trialsOf(situations, at));
  const without_ratio = Math.min(...without.map(tightest));
  const outcomes = await run(rows.flat());
  const pulled = levers.map(({ name, changes }, k): Lever => {
    const own = outcomes.slice(k * situations.length, (k + 1) * situations.length);
    const worst = own.reduce((a, b) => (tightest(b) < tightest(a) ? b : a));
    return {
      name,
      changes: textOf(changes),
      at: wordsOf(values),
      passes: own.every(passes),
      letter: worstLetter(own),
      tightest_ratio: tightest(worst),
      without_ratio,
      effect: effectOf(tightest(worst), without_ratio),
      binding: bindingOf(worst)?.id ?? decidedBy(worst).replaceAll('_', ' '),
    };
  });
  return pulled.sort((a, b) => stepOf(b.tightest_ratio) - stepOf(a.tightest_ratio));
}

function effectOf(withIt: number, without: number): Lever['effect'] {
  if (isAlike(withIt, without)) return 'changes nothing';
  return withIt > without ? 'helps' : 'makes it worse';
}
