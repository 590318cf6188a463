/** What was done to see that what a page shows is what was kept, as the page says it. */
import type { Verification } from '../../bundle/verification.ts';

/** Sums find accidents alone. */
export function summed(what: string): string {
  return `Every file of ${what} matched its SHA-256 when this page was made: nothing was cut short or changed by accident. Who edits a file can write its sum too.`;
}

/** A kept run by its sums, and made again where `verification` says so. */
export function checkedRun(verification: Verification | null): string {
  if (verification === null)
    return `${summed('the run')} It was not run again: buswake verify does that, and so does view --verify.`;
  const { build } = verification;
  const other = build.same ? '' : ', by another build than made it';
  return `${summed('the run')} It was run again from what it holds when this page was made${other}: report, channels and streams came out the same, bit for bit.`;
}
