/** The shape of the AC side in a report. The compiler holds it to `Grid`. */
import type { Grid } from '../analysis/judge/report.ts';
import * as is from './shape.ts';

const numberOrNull = is.orNull(is.finite);

const groups = is.record({
  windows_count: is.count,
  cycles_count: is.count,
  bin_Hz: is.finite,
  bins_A: is.listOf(is.finite),
  rows: is.listOf(
    is.record({
      order: is.count,
      group_A: numberOrNull,
      subgroup_A: numberOrNull,
      between_A: is.finite,
      centred_A: is.finite,
    }),
  ),
});

export const gridShape: is.Shape<Grid> = is.record({
  cabinets_count: is.count,
  coincidence: is.oneOf('together', 'independent'),
  feeders: is.listOf(
    is.record({
      feeder: is.text,
      line_Hz: is.finite,
      short_circuit_power_VA: is.finite,
      power_mean_W: numberOrNull,
      current_mean_A: numberOrNull,
      fall_mean_ratio: numberOrNull,
      change_max_ratio: numberOrNull,
      change_max_s: numberOrNull,
      change_steady_ratio: numberOrNull,
      change_steady_s: numberOrNull,
      change_kept_ratio: numberOrNull,
      change_kept_s: numberOrNull,
      pst: numberOrNull,
      pst_of: is.orNull(is.oneOf('measured', 'repeated cycle')),
      pst_over_s: numberOrNull,
      plt: numberOrNull,
      groups: is.orNull(groups),
    }),
  ),
});
