/** What each metric is called where people read it, and its unit. */
import type { Metrics } from '../judge/report.ts';

export const metricWords: readonly (readonly [metric: keyof Metrics, words: string, unit: string])[] = [
  ['bus_min_V', 'bus lowest', 'V'],
  ['bus_max_V', 'bus highest', 'V'],
  ['shelf_current_max_A', 'shelf current, peak', 'A'],
  ['share_error_steady_ratio', 'share error, steady', 'ratio'],
  ['share_error_transient_ratio', 'share error, after edges', 'ratio'],
  ['ac_power_mean_W', 'AC power, mean', 'W'],
  ['ac_power_ripple_ratio', 'AC ripple, peak to peak', 'ratio'],
  ['ac_ramp_100ms_W_per_s', 'AC ramp over 100 ms', 'W/s'],
  ['ac_ramp_1s_W_per_s', 'AC ramp over 1 s', 'W/s'],
  ['ac_line_current_rms_A', 'line current, all feeders', 'A'],
  ['tray_soc_min_ratio', 'tray charge, lowest', 'ratio'],
  ['tray_soc_max_ratio', 'tray charge, highest', 'ratio'],
  ['tray_capacitor_current_rms_A', 'tray capacitor, RMS', 'A'],
  ['battery_starts_count', 'battery starts', 'count'],
  ['link_bar_current_max_A', 'link bar current, peak', 'A'],
];
