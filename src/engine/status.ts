/** What a run with finite numbers ended as, by its books, its failure and the user's wish. */
import type { Audit, Failure, Status } from './result.ts';

/** Audit limits of a run that may be trusted: of throughput and of losses. */
export const auditLimits = { throughput: 1e-3, losses: 1e-2 } as const;

/** Books that do not close; written so that a residual which is not a number is open too. */
function isOpen({ residual_ratio, residual_loss_ratio }: Audit): boolean {
  const closed =
    Math.abs(residual_ratio) <= auditLimits.throughput && Math.abs(residual_loss_ratio) <= auditLimits.losses;
  return !closed;
}

/**
 * An open audit comes before everything that the numbers show, a collapse included: it is the numbers that are in
 * doubt. The failure stands in the result all the same.
 */
export function statusOf(audit: Audit, failure: Failure | null, stopped: boolean): Status {
  if (isOpen(audit)) return 'audit_open';
  if (failure !== null) return 'collapsed';
  return stopped ? 'stopped' : 'ok';
}
