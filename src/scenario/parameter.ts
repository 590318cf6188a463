/**
 * One parameter: what a number of a model or a scenario is called, what it means, its dimension and its
 * bounds. Declared once in `parameters/`; the reader validates against it, the kernel takes its column
 * names from it, `explain` prints it.
 */

import { type Dimension, suffixOf } from '../base/quantity.ts';

export type { Dimension };

export type BusExponent = -2 | -1 | 1 | 2;

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
  /**
   * Of what stands on the bus: with which power of its nominal voltage `usual` and `fallback` go, at the same power. Both are
   * stated for 50 V: a current goes with 1/V, a resistance with V², a capacitance and a gain [A/V] with 1/V².
   */
  readonly bus?: BusExponent;
  /** A time that the run counts in ticks: a period, a latency, a timer of the firmware. */
  readonly ticks?: true;
  /** Value when the file is silent; without it the parameter must be given. */
  readonly fallback?: number;
  /** Nothing holds where the file is silent, and no run needs it: who asks for it says what lacks it. */
  readonly optional?: true;
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

/** A parameter whose value is one of a few words: a mode, a reference, a way to react. */
export interface WordSpec {
  readonly of: readonly string[];
  readonly means: string;
  /** Word when the file is silent; without it the parameter must be given. */
  readonly fallback?: string;
}

/** The words of a table as a task reads them. */
export type Words<T extends Readonly<Record<string, WordSpec>>> = {
  readonly [K in keyof T & string]: T[K]['of'][number];
};

/** A table of words, typed by its own text. */
export function words<const T extends Readonly<Record<string, WordSpec>>>(table: T): T {
  return table;
}
