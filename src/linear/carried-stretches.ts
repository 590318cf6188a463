/** What carries plant and commands over stretches of either kind, held in the compiled form's memory meanwhile. */
import { holdingMaps } from '../dense/held-maps.ts';
import { holdingSteps } from '../dense/held-steps.ts';
import { carryByStep, type SteppedStretch } from './steps.ts';
import type { HeldStretch } from './stretches.ts';

export type CarriedStretch = HeldStretch | SteppedStretch;

/** `work` carries z over these stretches, in place, and over no others. */
export function carryingStretches<T>(
  stretches: readonly CarriedStretch[],
  work: (carry: (stretch: CarriedStretch, z: Float64Array) => void) => T,
): T {
  const maps = new Set(stretches.flatMap((one) => ('map' in one ? [one.map] : [])));
  const factors = new Set(stretches.flatMap((one) => ('by' in one ? [one.by] : [])));
  const push = new Float64Array(Math.max(0, ...[...factors].map(({ n }) => n)));
  const after = new Float64Array(Math.max(0, ...stretches.map((one) => ('map' in one ? one.n : 0))));
  return holdingMaps(maps, (apply) =>
    holdingSteps(factors, (step) =>
      work((stretch, z) => {
        if ('by' in stretch) {
          carryByStep(z, stretch, step, push);
          return;
        }
        const { map, n, commands } = stretch;
        apply(after, map, z, n, n + commands);
        for (let i = 0; i < n; i++) z[i] = after[i]!;
      }),
    ),
  );
}
