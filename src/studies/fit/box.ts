import { type Adjusted, onGrid } from './adjusted.ts';

/** A search sees every parameter from 0 to 1 over its range; latencies and counts only on their grid. */
export interface Box {
  /** The nearest point that can be run. */
  readonly snapped: (values: readonly number[]) => number[];
  /** From one value that a parameter may have to the next, of its range; 0: anywhere. */
  readonly spacing: readonly number[];
}

export function boxOf(adjusted: readonly Adjusted[]): Box {
  return {
    snapped: (values) =>
      adjusted.map((parameter, j) => {
        const { low, high, grid } = parameter;
        return grid === null
          ? values[j]!
          : (onGrid(parameter, low + values[j]! * (high - low)) - low) / (high - low);
      }),
    spacing: adjusted.map(({ low, high, grid }) => (grid === null ? 0 : grid / (high - low))),
  };
}
