/** What kinds are made of: one number, name or node of every unit. */
import type { Topology } from '../topology.ts';

interface Named {
  readonly id: string;
}

/** A column of one field over units. */
export function column<T>(units: readonly T[], read: (unit: T) => number): Float64Array {
  return Float64Array.from(units, read);
}

/** Parameters that a kind takes as they stand in the scenario, a column of each under its own name. */
export function columnsOf<Name extends string>(
  units: readonly { readonly values: Readonly<Record<Name, number>> }[],
  names: readonly Name[],
): Record<Name, Float64Array> {
  const columns = names.map((name) => [name, column(units, ({ values }) => values[name])] as const);
  return Object.fromEntries(columns) as Record<Name, Float64Array>;
}

export function ids(units: readonly Named[]): string[] {
  return units.map(({ id }) => id);
}

/** The node on which each unit stands. */
export function nodesOf({ nodeOf }: Topology, units: readonly Named[]): Int32Array {
  return Int32Array.from(units, ({ id }) => nodeOf.get(id)!);
}
