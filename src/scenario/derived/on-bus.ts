/**
 * How numbers of what stands on the bus go with its nominal voltage. Their tables state what is usual, and what holds where the
 * file is silent, for a bus of 50 V; another bus has these at the same power.
 */
import type { ParameterSpec } from '../parameter.ts';
import type { Sheet } from '../sheet.ts';

/** The nominal voltage that the tables are written for. */
export const tabled_V = 50;

/** What a number of `spec` is multiplied by on a bus of `nominal_V`. */
export function busFactor({ bus }: Pick<ParameterSpec, 'bus'>, nominal_V: number): number {
  if (bus === undefined) return 1;
  const volts = nominal_V / tabled_V;
  const size = Math.abs(bus) === 2 ? volts * volts : volts;
  return bus < 0 ? 1 / size : size;
}

/** Where nobody wrote a number, what holds is that of this bus. */
export function fallbacksOnBus(sheet: Sheet): void {
  const nominal_V = sheet.number('nominal');
  if (!(nominal_V > 0)) return;
  for (const [path, cell] of sheet.cells) {
    const { field, origin, note } = cell;
    if (field.kind !== 'quantity' || origin !== null || note !== null) continue;
    const { bus, fallback } = field.spec;
    if (bus === undefined || fallback === undefined || cell.value !== fallback) continue;
    sheet.put(path, { ...cell, value: fallback * busFactor(field.spec, nominal_V) });
  }
}
