/** The shape of what a run's report says of protection. The compiler holds it to `Protection`. */
import type { NearestTrip, Protection } from '../analysis/protection/protection.ts';
import * as is from './shape.ts';

const nearest: is.Shape<NearestTrip> = is.record({
  counted: is.oneOf('rms', 'above'),
  current_A: is.finite,
  length_s: is.finite,
  allowed_s: is.finite,
  used_ratio: is.finite,
  from_s: is.finite,
});

export const protectionShape: is.Shape<Protection> = is.record({
  units: is.listOf(
    is.record({
      protection: is.text,
      unit: is.text,
      rating_A: is.finite,
      peak_A: is.finite,
      nearest: is.orNull(nearest),
      goes_on: is.truth,
    }),
  ),
});
