/**
 * What a task shows of itself to whoever differentiates its code: the numbers that it keeps from one run to the next and
 * those that it commands, each with the size that counts as one of it.
 */

/** One number that a task keeps or writes. */
export interface ExposedCell {
  readonly label: string;
  readonly size: number;
  get(): number;
  set(value: number): void;
}

/** A command, and where the device reads it. */
export interface CommandCell extends ExposedCell {
  readonly target: Float64Array;
  readonly place: number;
}

export interface Exposed {
  /** Size of each element of the task's signal. */
  readonly sampleSizes: Float64Array;
  readonly memory: readonly ExposedCell[];
  readonly commands: readonly CommandCell[];
}

/** Sizes that count as one: of voltages and trims, of powers, of per-unit currents. */
export const sizes = { voltage_V: 0.1, power_W: 5e3, current_ratio: 0.1 } as const;

/** A number that stands in a column. */
export function cellAt(label: string, size: number, target: Float64Array, place: number): CommandCell {
  return {
    label,
    size,
    target,
    place,
    get: () => target[place]!,
    set: (value) => {
      target[place] = value;
    },
  };
}

/** What a controller of the user's own remembers, under its own names; `size` is that of what it writes. */
export function memoryOf(
  { memory, memoryNames }: { readonly memory: Float64Array; readonly memoryNames: readonly string[] },
  size: number,
): ExposedCell[] {
  return memoryNames.map((name, k) => cellAt(name, size, memory, k));
}
