/** What kinds are made of: one number, name or node of every unit. */
import type { Topology } from '../topology.ts';

interface Named {
  readonly id: string;
}

/** A column of one field over units. */
export function column<T>(units: readonly T[], read: (unit: T) => number): Float64Array {
  return Float64Array.from(units, read);
}

export function ids(units: readonly Named[]): string[] {
  return units.map(({ id }) => id);
}

/** The node on which each unit stands. */
export function nodesOf({ nodeOf }: Topology, units: readonly Named[]): Int32Array {
  return Int32Array.from(units, ({ id }) => nodeOf.get(id)!);
}
