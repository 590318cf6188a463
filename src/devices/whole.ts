/** A copy of every number of a set of columns: what the units are when all their modules are alive. */
export function wholeOf<C extends object>(columns: C): C {
  return Object.fromEntries(
    Object.entries(columns).map(([key, column]) => [
      key,
      column instanceof Float64Array ? column.slice() : column,
    ]),
  ) as C;
}
