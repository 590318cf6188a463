/**
 * Packs that carry do not rest: they give away their charge, and as their voltage falls with it, those that empty faster
 * empty faster still, at less than load over energy. It is no instability.
 */
import type { Scenario } from '../scenario/scenario.ts';

/** How fast packs that carry a load give away their charge [1/s]; 0 where none carries. */
export function emptying_per_s(
  { batteries }: Pick<Scenario, 'batteries'>,
  load_W: number,
  carrying: readonly string[],
): number {
  const held_J = batteries
    .filter(({ id }) => carrying.includes(id))
    .reduce((sum, { values }) => sum + values.energy_J, 0);
  return held_J > 0 ? load_W / held_J : 0;
}
