/**
 * Metrics are of the whole window. Some findings of the same name leave moments out (after a start, from AC loss
 * to the end of walk-in, around edges): where the two numbers then differ, they are said together.
 */
import type { Finding, Metrics, Report } from './report.ts';

/** Findings that judge what a metric measures. */
const judgedBy: Readonly<Partial<Record<keyof Metrics, readonly string[]>>> = {
  share_error_steady_ratio: ['share-steady-high', 'share-steady-low'],
  share_error_transient_ratio: ['share-transient'],
  ac_ramp_100ms_W_per_s: ['ac-ramp-100ms'],
  ac_ramp_1s_W_per_s: ['ac-ramp-1s'],
  tray_soc_min_ratio: ['tray-charge-low'],
  tray_soc_max_ratio: ['tray-charge-high'],
};

/** Less than this is rounding. */
const apart_ratio = 1e-6;

export interface JudgedApart {
  readonly metric: keyof Metrics;
  readonly value: number;
  readonly finding: Pick<Finding, 'id' | 'unit'>;
  readonly judged: number;
}

/** Metrics whose finding has another value, in the order of the metrics. */
export function judgedApart({ metrics, findings }: Pick<Report, 'metrics' | 'findings'>): JudgedApart[] {
  return Object.entries(judgedBy).flatMap(([name, ids]) => {
    const metric = name as keyof Metrics;
    const value = metrics[metric];
    const finding = findings.find((f) => ids.includes(f.id) && f.value !== null && f.bracket === null);
    if (value === null || finding === undefined) return [];
    const judged = finding.value!;
    return Math.abs(judged - value) <= apart_ratio * Math.abs(value)
      ? []
      : [{ metric, value, finding, judged }];
  });
}
