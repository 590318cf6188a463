/** The shape of what a run's report says of its copper. The compiler holds it to `Copper`. */
import type { Copper } from '../analysis/read/copper.ts';
import * as is from './shape.ts';

const numberOrNull = is.orNull(is.finite);

export const copperShape: is.Shape<Copper> = is.record({
  bars: is.listOf(
    is.record({
      bar: is.text,
      rms_A: is.finite,
      rated_A: numberOrNull,
      rise_K: numberOrNull,
      joint_K: numberOrNull,
      runs_away: is.truth,
    }),
  ),
});
