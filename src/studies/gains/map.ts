/** A gains map: two axes, one cell for each pair, and the point to choose. */
import { lacks } from './accept.ts';
import type { GainsAxis } from './axis.ts';
import type { GainsCell } from './cell.ts';
import type { GainsPlan } from './plan.ts';
import { type Recommendation, recommend } from './recommend.ts';

export interface PlacedCell extends GainsCell {
  readonly x: number;
  readonly y: number;
  /** Why it is not acceptable; null where it is. */
  readonly lacks: string | null;
  /** What it is not acceptable in, though it is as it stands: a sample of the tolerances, a load, a state, parts; null otherwise. */
  readonly fails_in: string | null;
}

export interface GainsMap {
  readonly axes: readonly [GainsAxis, GainsAxis];
  /** Row by row: the second axis runs within the first. */
  readonly cells: readonly PlacedCell[];
  readonly recommended: Recommendation | null;
}

/** `found`: the plan's cells, in its order. */
export function mapOf({ axes, places, acceptance }: GainsPlan, found: readonly GainsCell[]): GainsMap {
  const [, b] = axes;
  const cells: PlacedCell[] = [];
  for (const [k, [x, y]] of places.entries()) {
    const cell = found[k]!;
    cells[x * b.values.length + y] = { ...cell, x, y, lacks: lacks(cell, acceptance), fails_in: null };
  }
  return mapWith(axes, cells);
}

/** The map of these cells, and the point that it recommends. */
export function mapWith(axes: GainsMap['axes'], cells: readonly PlacedCell[]): GainsMap {
  const [a, b] = axes;
  const at = (x: number, y: number): PlacedCell => cells[x * b.values.length + y]!;
  const good = a.values.map((_, x) => b.values.map((__, y) => at(x, y).lacks === null));
  const recommended = recommend(axes, good, (x, y) => -(at(x, y).clearance_ratio ?? 0));
  return { axes, cells, recommended };
}

/** The cell that is recommended. */
export function chosenCell({ axes, cells, recommended }: GainsMap): PlacedCell | null {
  if (recommended === null) return null;
  const [x, y] = recommended.place;
  return cells[x * axes[1].values.length + y]!;
}
