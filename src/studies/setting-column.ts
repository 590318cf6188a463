/** Values that trials were set to, `130 F`, as a column of a table. */
import { type Dimension, readQuantity, suffixOf } from '../base/quantity.ts';

export type SettingColumn =
  | { readonly holds: 'number'; readonly name: string; readonly cells: readonly (number | null)[] }
  | { readonly holds: 'text'; readonly name: string; readonly cells: readonly (string | null)[] };

/** Every dimension, counts before ratios: a whole number is a count where all are. */
const dimensions: readonly Dimension[] = [
  'count',
  ...(Object.keys(suffixOf) as Dimension[]).filter((dimension) => dimension !== 'count'),
];

/**
 * Numbers with the SI unit behind the path: `trays.capacitance_F`. Words, and values that are not all of one dimension,
 * stay texts.
 */
export function settingColumn(path: string, values: readonly (string | null)[]): SettingColumn {
  const given = values.filter((value) => value !== null);
  for (const dimension of dimensions) {
    if (given.length === 0 || !given.every((value) => readQuantity(value, dimension).ok)) continue;
    const name = dimension === 'count' ? path : `${path}_${suffixOf[dimension]}`;
    const cells = values.map((value) => (value === null ? null : numberOf(value, dimension)));
    return { holds: 'number', name, cells };
  }
  return { holds: 'text', name: path, cells: values };
}

function numberOf(value: string, dimension: Dimension): number | null {
  const read = readQuantity(value, dimension);
  return read.ok ? read.value : null;
}
