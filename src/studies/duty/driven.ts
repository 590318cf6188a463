/** What a stretch's fast run leaves: how it was judged, and what it shows of what heats, wears and charges while it goes on. */
import { caseOf } from '../../analysis/record/case.ts';
import { driveOf } from '../../analysis/record/drive.ts';
import { tailOf } from '../../analysis/record/tail.ts';
import type { JudgedRun } from '../../bundle/format.ts';
import { makeDemand } from '../../loads/make-demand.ts';
import type { RecordedLoad } from '../../loads/recorded/recorded-load.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { Drive } from '../../slow/drive.ts';
import type { RunOutcome } from '../trials/run-outcome.ts';

export interface Driven {
  readonly outcome: RunOutcome;
  /** null where the run did not come to its end. */
  readonly drive: Drive | null;
  /** Why the end of the run may not stand for hours of it; null where it does. */
  readonly unsettled: string | null;
}

/** `recordingOf`: the load that was played, where it is a recorded one; a run itself can be handed on, a demand cannot. */
export function drivenOf(
  { outcome, ran }: { readonly outcome: RunOutcome; readonly ran: JudgedRun | null },
  recordingOf: (scenario: Scenario) => RecordedLoad | null,
): Driven {
  if (ran === null || ran.result.status !== 'ok') return { outcome, drive: null, unsettled: null };
  const { scenario, result } = ran;
  const demand = makeDemand(scenario, recordingOf(scenario) ?? undefined);
  const c = caseOf(scenario, demand, result);
  return { outcome, drive: driveOf(c), unsettled: tailOf(c).unsettled };
}
