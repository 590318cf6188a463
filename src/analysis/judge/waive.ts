/** Applies a reviewer's waiver to a finding: it stays in the record, with who and why. */
import type { Waiver } from '../../scenario/scenario.ts';
import type { Finding } from './report.ts';

/** A fail or an open limit becomes `waived`; what was found stays. A pass only says that the waiver is idle. */
export function waive(finding: Finding, waiver: Waiver): Finding {
  const { verdict, reason } = finding;
  if (verdict === 'not_applicable' || verdict === 'waived') return finding;
  if (verdict === 'pass') return { ...finding, reason: join(reason, 'waived, but it holds by itself') };
  const rest = verdict === 'fail' || reason === null ? reason : `it could not be judged: ${reason}`;
  return {
    ...finding,
    verdict: 'waived',
    waived_from: verdict,
    reason: join(waiverWords(waiver), rest),
  };
}

/** Whether a waiver's last day lies before the day of judgement; where none is stated it holds. */
export function ranOut({ until }: Pick<Waiver, 'until'>, judged_on: string | null): boolean {
  return until !== null && judged_on !== null && until < judged_on;
}

/** A finding whose waiver ran out is judged by its limit; that there was one stays in the record. */
export function lapse(finding: Finding, waiver: Waiver): Finding {
  const { verdict, reason } = finding;
  if (verdict === 'not_applicable' || verdict === 'pass') return finding;
  return { ...finding, reason: join(reason, `no longer ${waiverWords(waiver)}`) };
}

/** `waived by reviewer until 2030-06-30: the utility agreed`. */
export function waiverWords({ reason, by, until }: Waiver): string {
  const who = by === null ? '' : ` by ${by}`;
  const end = until === null ? '' : ` until ${until}`;
  return `waived${who}${end}: ${reason}`;
}

function join(first: string | null, second: string | null): string | null {
  const parts = [first, second].filter((part) => part !== null && part !== '');
  return parts.length === 0 ? null : parts.join('; ');
}
