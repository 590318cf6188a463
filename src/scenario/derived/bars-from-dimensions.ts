/**
 * What the dimensions of a bar give: resistance, inductance, rated current, thermal time and the heat path of its joints.
 * Worked out once all changes are made, so that a study may vary a width; whatever is stated stays as stated.
 */
import type { Bars } from '../../copper/bars.ts';
import { loopInductance_H } from '../../copper/inductance.ts';
import { loopResistance_ohm } from '../../copper/resistance.ts';
import { jointThermalResistance_K_per_W, poleRating_A, thermalTime_s } from '../../copper/warming.ts';
import type { Cell, Sheet } from '../sheet.ts';
import { problemAt } from '../text/document.ts';
import { listed } from '../text/nearest.ts';

/** Dimensions that belong together: of these all are stated, or none. */
const needed = ['width', 'thickness', 'gap', 'length'] as const;

/** Values that follow, by key. */
const follows = {
  resistance: (bars: Bars, joints_ohm: number) => loopResistance_ohm(bars) + joints_ohm,
  inductance: loopInductance_H,
  rated_current: poleRating_A,
  thermal_time: thermalTime_s,
  joint_thermal_resistance: jointThermalResistance_K_per_W,
} as const satisfies Readonly<Record<string, (bars: Bars, joints_ohm: number) => number>>;

export function barsFromDimensions(sheet: Sheet): void {
  for (const cell of [...sheet.cells.keys()])
    if (cell.startsWith('bars.') && cell.endsWith('.thickness'))
      fill(cell.slice(0, -'.thickness'.length), sheet);
}

function fill(path: string, sheet: Sheet): void {
  const of = (key: string): number => sheet.number(`${path}.${key}`);
  const missing = needed.filter((key) => of(key) === 0);
  const wrong = missing.length === needed.length ? bare(of) : incomplete(of, missing);
  if (wrong !== null) {
    const expected = 'resistance and inductance of the bar, or its dimensions';
    sheet.problems.push(problemAt(originOf(path, sheet), path, wrong.found, expected, wrong.mend));
  }
  if (wrong !== null || missing.length > 0) return;
  const bars = barsAt(of);
  for (const [key, value] of Object.entries(follows)) {
    const at = `${path}.${key}`;
    const cell = sheet.cells.get(at);
    // 0 stands for what the file leaves to the dimensions.
    if (cell?.value !== 0) continue;
    const joints_ohm = of('joints') * of('joint_resistance');
    sheet.put(at, { ...cell, value: value(bars, joints_ohm), origin: originOf(path, sheet) });
  }
}

interface Wrong {
  readonly found: string;
  readonly mend: string;
}

/** Without dimensions: what must be stated then. */
function bare(of: (key: string) => number): Wrong | null {
  const missing = (['resistance', 'inductance'] as const).filter((key) => of(key) === 0);
  if (missing.length === 0) return null;
  return {
    found: `no ${listed(missing)}`,
    mend: `give ${listed(missing, 'and')}, or ${listed(needed, 'and')}`,
  };
}

function incomplete(of: (key: string) => number, missing: readonly string[]): Wrong | null {
  if (missing.length > 0)
    return { found: `dimensions without ${listed(missing)}`, mend: `give ${listed(missing, 'and')} as well` };
  if (of('joints') > 0 && of('joint_resistance') === 0)
    return {
      found: `${of('joints')} joints without joint_resistance`,
      mend: 'give joint_resistance as well',
    };
  return null;
}

function barsAt(of: (key: string) => number): Bars {
  return {
    width_m: of('width'),
    thickness_m: of('thickness'),
    count: of('bars'),
    gap_m: of('gap'),
    length_m: of('length'),
    temperature_degC: of('temperature'),
    air_speed_m_per_s: of('air_speed'),
    coolant_resistance_K_per_W: of('coolant_resistance'),
  };
}

function originOf(path: string, sheet: Sheet): Cell['origin'] {
  for (const [key, { origin }] of sheet.cells)
    if (key.startsWith(`${path}.`) && origin !== null) return origin;
  return null;
}
