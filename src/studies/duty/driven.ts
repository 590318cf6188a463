/** What a stretch's fast run leaves: how it was judged, and what it shows of what heats, wears and charges while it goes on. */
import { caseOf } from '../../analysis/record/case.ts';
import { driveOf } from '../../analysis/record/drive.ts';
import type { JudgedRun } from '../../bundle/format.ts';
import type { Demand } from '../../loads/demand.ts';
import type { Drive } from '../../slow/drive.ts';
import type { RunOutcome } from '../trials/run-outcome.ts';

export interface Driven {
  readonly outcome: RunOutcome;
  /** null where the run did not come to its end. */
  readonly drive: Drive | null;
}

export function drivenOf({
  outcome,
  ran,
}: {
  readonly outcome: RunOutcome;
  readonly ran: (JudgedRun & { readonly demand: Demand }) | null;
}): Driven {
  if (ran === null || ran.result.status !== 'ok') return { outcome, drive: null };
  return { outcome, drive: driveOf(caseOf(ran.scenario, ran.demand, ran.result)) };
}
