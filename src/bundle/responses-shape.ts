/** The shape of what a run's report says of responses. The compiler holds it to `Responses`. */
import { answering } from '../analysis/responses/responses.ts';
import type { Excursion, Responses, Settled } from '../analysis/responses/summary.ts';
import * as is from './shape.ts';

const numberOrNull = is.orNull(is.finite);

const excursion: is.Shape<Excursion> = is.record({
  value: is.finite,
  ratio: numberOrNull,
  step_s: is.finite,
});

const settled: is.Shape<Settled> = is.record({ time_s: numberOrNull, step_s: is.finite });

export const responsesShape: is.Shape<Responses> = is.record({
  steps_count: is.count,
  resolution_s: numberOrNull,
  units: is.listOf(
    is.record({
      kind: is.oneOf(...answering),
      unit: is.text,
      quantity: is.oneOf('V', 'A', 'W'),
      moved_count: is.count,
      overshoot: is.orNull(excursion),
      undershoot: is.orNull(excursion),
      settling_5: is.orNull(settled),
      settling_2: is.orNull(settled),
      at_limit: is.listOf(is.record({ limit: is.text, share_ratio: is.finite })),
    }),
  ),
});
