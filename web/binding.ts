/** What binds a run: the finding that decides its verdict, where and when. The page opens there. */
import type { Finding } from '../src/analysis/judge/report.ts';
import type { Bundle } from '../src/bundle/format.ts';
import type { Result } from '../src/engine/result.ts';

/** What of a run says what binds it. */
export interface Bound extends Pick<Bundle, 'report'> {
  readonly result: Pick<Result, 'failure'>;
}

export interface Binding {
  /** null where nothing could be judged, or where the run fell before any limit decided. */
  readonly finding: Finding | null;
  readonly what: string;
  readonly where: string | null;
  readonly time_s: number | null;
}

/** A collapse or a failure of the numbers before any limit; then the first finding, as they stand binding first. */
export function bindingOf({ report, result }: Bound): Binding {
  const { failure } = result;
  const fallen = report.collapse ?? report.failure;
  const [first] = report.findings;
  if (fallen !== null) {
    // Sleds that all went dark leave no failure: the worst of what was exceeded on the way says where and when.
    const worst = first?.verdict === 'fail' ? first : null;
    const where = failure === null ? (worst?.node ?? null) : failure.name;
    const time_s = failure === null ? (worst?.time_s ?? null) : failure.time_s;
    return { finding: null, what: fallen, where, time_s };
  }
  const binding = first?.verdict === 'fail' || first?.verdict === 'pass' ? first : null;
  return {
    finding: binding,
    what: binding?.title ?? 'no limit could be judged',
    where: binding?.node ?? null,
    time_s: binding?.time_s ?? null,
  };
}
