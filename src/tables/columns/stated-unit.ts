/** The unit that a column's name ends with, of whatever quantity: what a name says may speak against what is read. */
import { currentUnitIn, powerUnitIn, voltageUnitIn } from '../cells/power-unit.ts';

export type Quantity = 'power' | 'current' | 'voltage' | 'something else';

/** Units of what is none of these: energy, charge, apparent and reactive power, temperature, speed, rate, share. */
const others =
  /(?:^|[\s_.:/([-])([mkM]?J|[mkM]?Wh|[mk]?Ah|[kM]?VA|[kM]?[Vv]ar|°?C|degC|celsius|rpm|RPM|[kMG]?Hz|%|pct|percent)[)\]]?$/;

export function statedUnit(name: string): { readonly unit: string; readonly of: Quantity } | null {
  const power = powerUnitIn(name);
  if (power !== null) return { unit: power.unit, of: 'power' };
  const current = currentUnitIn(name);
  if (current !== null) return { unit: current, of: 'current' };
  const voltage = voltageUnitIn(name);
  if (voltage !== null) return { unit: voltage, of: 'voltage' };
  const other = others.exec(name)?.[1];
  return other === undefined ? null : { unit: other, of: 'something else' };
}
