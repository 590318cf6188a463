/** The chosen point run in time, limits, quantum, dead band and modes on: judged as any run. */
import type { Verdict } from '../../analysis/judge/report.ts';
import { replayOf } from '../trials/replay.ts';
import { bindingOf, type RunOutcome } from '../trials/run-outcome.ts';
import { conditionsOf, type Letter, letterOf } from '../trials/states.ts';
import type { RunTrials, Trial } from '../trials/trial.ts';
import type { GainsMap } from './map.ts';
import type { GainsPlan } from './plan.ts';

export interface Confirmation {
  readonly status: RunOutcome['status'];
  readonly verdict: Verdict;
  readonly letter: Letter;
  readonly summary: string;
  /** What a pass rests on, and what the reader of the files warned of. */
  readonly conditions: readonly string[];
  readonly warnings: readonly string[];
  readonly binding: string | null;
  readonly trial: Trial<'run'>;
  readonly replay: string;
}

/** Null where nothing is recommended, or no run was asked for. */
export async function confirm(
  { asked }: GainsPlan,
  { recommended }: GainsMap,
  run: RunTrials,
): Promise<Confirmation | null> {
  if (recommended === null || !asked.confirm) return null;
  const changes = [...asked.changes, ...recommended.changes];
  const trial: Trial<'run'> = { kind: 'run', scenario: asked.scenario, changes };
  const [outcome] = await run([trial]);
  const { status, verdict, summary, warnings } = outcome!;
  return {
    status,
    verdict,
    letter: letterOf(outcome!),
    summary,
    conditions: conditionsOf(outcome!),
    warnings,
    binding: bindingOf(outcome!)?.id ?? null,
    trial,
    replay: replayOf(trial),
  };
}
