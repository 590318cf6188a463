/** A quantity that limits compare, as a specification names it in its column `metric`: what it is and how a bound is written. */

import {
  isQuantityName,
  type LimitQuantity,
  type QuantityName,
  quantities,
} from '../scenario/limit-quantities.ts';
import type { LimitRow } from '../scenario/limit-row.ts';
import { unitsOf } from '../scenario/specification/written-unit.ts';

export interface QuantityWords {
  readonly name: string;
  /** Titles of the shipped limits that compare it. */
  readonly compared_as: readonly string[];
  /** What a bound may be written in. */
  readonly unit: string;
  readonly bound: string;
  readonly stay: string;
  readonly band: string;
}

/** The quantity of that name; all of them where the word stands for limits, or for the column that names them. */
export function quantitiesNamed(word: string, limits: readonly LimitRow[]): QuantityWords[] {
  const all = Object.keys(quantities).filter(isQuantityName);
  const named = ['limits', 'metric', 'metrics', 'quantity'].includes(word)
    ? all
    : all.filter((name) => name === word);
  return named.map((name) => quantityWords(name, limits));
}

function quantityWords(name: QuantityName, limits: readonly LimitRow[]): QuantityWords {
  const quantity: LimitQuantity = quantities[name];
  return {
    name,
    compared_as: limits.filter((row) => row.quantity === name).map(({ title }) => title),
    unit: unitsOf(quantity),
    bound: { upper: 'an upper one, <=', lower: 'a lower one, >=', either: 'either, <= or >=' }[quantity.side],
    stay: stayOf(quantity),
    band: quantity.band_to_Hz === null ? 'none' : `required, up to ${quantity.band_to_Hz} Hz`,
  };
}

function stayOf({ stay }: LimitQuantity): string {
  if (typeof stay === 'number') return `required, ${stay} s`;
  return stay === null ? 'none' : stay;
}
