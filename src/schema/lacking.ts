import { nameOf, suffixOf } from '../base/quantity.ts';
import type { Key } from './keys.ts';

/** What the reference could not say of a key: its unit, its range, what holds where nothing is written, what it means. */
export function lackingOf({ path, field, fallback }: Key): readonly string[] {
  const means = field.kind === 'quantity' ? field.spec.means : field.means;
  const lacks = /\p{L}{2,}/u.test(means) && means !== path ? [] : ['meaning'];
  if (field.kind === 'choice' && (field.of.length === 0 || new Set(field.of).size < field.of.length))
    lacks.push('range');
  if (field.kind === 'choice' && typeof fallback === 'string' && !field.of.includes(fallback))
    lacks.push('default');
  if (field.kind === 'flag' && typeof fallback !== 'boolean' && fallback !== undefined && fallback !== null)
    lacks.push('default');
  if (field.kind !== 'quantity') return lacks;
  const { dimension, min, max, usual } = field.spec;
  if (!Object.hasOwn(suffixOf, dimension) || nameOf(dimension) === '') lacks.push('unit');
  if (!(Number.isFinite(min) && Number.isFinite(max) && min < max)) lacks.push('range');
  if (usual !== undefined && !(usual[0] <= usual[1] && usual[0] >= min && usual[1] <= max))
    lacks.push('range');
  const isNumber = typeof fallback === 'number';
  if (isNumber ? !(fallback >= min && fallback <= max) : fallback !== undefined && fallback !== null)
    lacks.push('default');
  return lacks;
}
