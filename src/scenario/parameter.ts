/**
 * One parameter: what a number of a model or a scenario is called, what it means, its dimension and its
 * bounds. Declared once in `parameters/`; the reader validates against it, the kernel takes its column
 * names from it, `explain` prints it.
 */

/** The SI unit suffix that a dimension puts behind a field's name. */
export const suffixOf = {
  voltage: 'V',
  current: 'A',
  resistance: 'ohm',
  capacitance: 'F',
  inductance: 'H',
  power: 'W',
  apparent_power: 'VA',
  energy: 'J',
  time: 's',
  frequency: 'Hz',
  ratio: 'ratio',
  count: 'count',
  current_rate: 'A_per_s',
  power_rate: 'W_per_s',
  voltage_gain: 'A_per_V',
  integral_gain: 'A_per_Vs',
  inverse_power: 'per_W',
  temperature: 'degC',
} as const;

export type Dimension = keyof typeof suffixOf;

export interface ParameterSpec {
  readonly dimension: Dimension;
  /** The letter the equations use. */
  readonly symbol: string;
  readonly means: string;
  /** Smallest and largest value that makes sense at all; `exclusive` keeps the lower bound itself out. */
  readonly min: number;
  readonly max: number;
  readonly exclusive?: boolean;
  /** Usual range: a value outside is legal but draws a warning. */
  readonly usual?: readonly [number, number];
  /** Value when the file is silent; without it the parameter must be given. */
  readonly fallback?: number;
}

/** Field names with their units, made from a table of parameters: `droop` becomes `droop_ohm`. */
export type Values<T extends Readonly<Record<string, ParameterSpec>>> = {
  readonly [K in keyof T & string as `${K}_${(typeof suffixOf)[T[K]['dimension']]}`]: number;
};

/** A table of parameters, typed by its own text. */
export function parameters<const T extends Readonly<Record<string, ParameterSpec>>>(table: T): T {
  return table;
}

/** The field name of a parameter: its key, an underscore, its SI unit. */
export function fieldOf(key: string, spec: ParameterSpec): string {
  return `${key}_${suffixOf[spec.dimension]}`;
}
