/** The largest scale that passes, and what stands in the way of the next. */
import type { Change } from '../../scenario/scenario.ts';
import { type Candidate, limitOf, textOf, trialsOf, trier } from '../search/candidates.ts';
import { leastPassing } from '../search/least-passing.ts';
import { nearestOf, tightestIn } from '../search/never-clears.ts';
import type { Search } from '../search/rounds.ts';
import { replayOf } from '../trials/replay.ts';
import { notJudged, type TrialFinding } from '../trials/run-outcome.ts';
import { conditionsOf, worstLetter } from '../trials/states.ts';
import type { RatingPlan } from './plan.ts';
import type { RatingRow } from './report.ts';
import type { RatingTask } from './task.ts';

/** The largest scale of a task that passes. */
export function largestOf(
  { situation, changes }: RatingTask,
  { scales, all }: Pick<RatingPlan, 'scales' | 'all'>,
): Search<RatingRow> {
  return async (run) => {
    const at = (k: number): readonly Change[] => changes[k]!;
    const seen = new Map<string, Candidate>();
    const found = await leastPassing(scales.length, trier([situation], at, run, seen), { all });
    const nearest = found.least === null ? nearestOf(found) : null;
    const k = found.least ?? nearest!.at;
    const [key] =
      nearest === null ? tightestIn(found.tried.get(k - 1) ?? found.tried.get(k)!) : [nearest.key];
    const limit = limitOf(key);
    const beyond = nearest?.at ?? k - 1;
    const over = beyond < 0 ? undefined : seen.get(textOf(at(beyond)));
    const finding = over?.outcomes[0]?.findings.find(({ id, verdict }) => id === limit && verdict === 'fail');
    const [trial] = trialsOf([situation], at(k));
    const passed = found.least === null ? [] : seen.get(textOf(at(k)))!.outcomes;
    return {
      situation: situation.name === '' ? 'as it is' : situation.name,
      scale_ratio: found.least === null ? null : scales[k]!,
      values: Object.fromEntries(at(k).map(({ path, value }) => [path, value])),
      binding: limit.replaceAll('_', ' '),
      exceeded: finding === undefined ? null : numbersIn(finding),
      letter: passed.length === 0 ? null : worstLetter(passed),
      headroom_ratio: nearest?.headroom ?? found.tried.get(k)!.headrooms.get(key) ?? 0,
      or_more: found.least === 0,
      reversed: found.reversed.map(limitOf),
      nearest_ratio: nearest === null ? null : scales[nearest.at]!,
      not_judged: notJudged(passed),
      conditions: [...new Set(passed.flatMap(conditionsOf))],
      warnings: [...new Set(passed.flatMap(({ warnings }) => warnings))],
      trial: trial!,
      replay: replayOf(trial!),
    };
  };
}

function numbersIn({ value, limit, unit, headroom_ratio }: TrialFinding): RatingRow['exceeded'] {
  return { value, limit, unit, headroom_ratio };
}
