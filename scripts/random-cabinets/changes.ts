/**
 * Random changes of models and firmware: any quantity that the files give, of one unit or of all of a kind, to
 * between half and twice what it is. What the reader then refuses is drawn again.
 */
import { formatQuantity } from '../../src/base/quantity.ts';
import type { ParameterSpec } from '../../src/scenario/parameter.ts';
import type { ReadScenario } from '../../src/scenario/read.ts';
import { type Draw, writtenTime } from './draw.ts';

interface Changeable {
  readonly path: string;
  readonly value: number;
  readonly spec: ParameterSpec;
}

const changedParts = /^(bars|shelves|trays|banks|batteries|sleds|firmware)\./;

const ofOneUnit = /^(shelves|trays|banks|batteries|sleds)\.[^.]+\./;

function changeable({ cells }: ReadScenario): Changeable[] {
  return [...cells].flatMap(([path, { field, value }]) =>
    changedParts.test(path) && field.kind === 'quantity' && typeof value === 'number' && value > 0
      ? [{ path, value, spec: field.spec }]
      : [],
  );
}

/** A line of `changes:`. */
export function randomChange(draw: Draw, read: ReadScenario): string {
  const { path, value, spec } = draw.pick(changeable(read));
  const where = draw.chance(0.5) ? path.replace(ofOneUnit, '$1.') : path;
  const drawn = Math.min(spec.max, Math.max(spec.min, value * draw.acrossDecades(0.5, 2)));
  return `  ${where}: ${writtenAs(drawn, spec)}`;
}

function writtenAs(value: number, spec: ParameterSpec): string {
  if (spec.dimension === 'count') return String(Math.round(value));
  return spec.ticks === true ? writtenTime(value) : formatQuantity(value, spec.dimension, 4);
}
