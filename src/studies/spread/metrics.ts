/** Metrics that a spread lists and that its sensitivity may be about. */
import type { Metrics } from '../../analysis/judge/report.ts';
import type { RunOutcome } from '../trials/run-outcome.ts';

export const metricNames: readonly (keyof Metrics)[] = [
  'bus_min_V',
  'bus_max_V',
  'shelf_current_max_A',
  'share_error_steady_ratio',
  'share_error_transient_ratio',
  'ac_power_mean_W',
  'ac_power_ripple_ratio',
  'ac_ramp_100ms_W_per_s',
  'ac_ramp_1s_W_per_s',
  'ac_line_current_rms_A',
  'tray_soc_min_ratio',
  'tray_soc_max_ratio',
  'tray_capacitor_current_rms_A',
  'battery_starts_count',
  'link_bar_current_max_A',
];

export function metricOf({ metrics }: RunOutcome, name: string): number | null {
  return metrics === null ? null : (metrics[name as keyof Metrics] ?? null);
}
