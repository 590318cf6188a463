/** Battery shelves whose packs fit their own converter: a curve that rises, power they can give, a voltage to charge to. */
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import { fittedUnits, type Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import type { Origin } from '../text/origin.ts';
import { say } from '../text/say.ts';

const curve = [
  'open_circuit_empty',
  'open_circuit_tenth',
  'open_circuit_half',
  'open_circuit_nine_tenths',
  'open_circuit_full',
] as const;

export function checkBatteries(structure: Structure, sheet: Sheet): void {
  const said = new Set<string>();
  for (const { text: id } of fittedUnits(structure, 'batteries', sheet)) {
    const n = (key: string): number => sheet.number(`batteries.${id}.${key}`);
    const complain = (key: string, found: string, expected: string, mend: string): void => {
      const origin: Origin | null = sheet.cells.get(`batteries.${id}.${key}`)?.origin ?? null;
      // All shelves of one model: once is enough.
      const once = JSON.stringify([key, found, expected, origin]);
      if (said.has(once)) return;
      said.add(once);
      say(sheet, origin, `batteries.${id}.${key}`, found, expected, mend);
    };
    checkCurve(n, complain);
    checkPower(n, complain);
    checkVoltageMin(n, complain);
    checkFull(n, complain);
  }
}

type ReadKey = (key: string) => number;
type Complain = (key: string, found: string, expected: string, mend: string) => void;

function checkCurve(n: ReadKey, complain: Complain): void {
  for (let k = 1; k < curve.length; k++) {
    const [low, high] = [curve[k - 1]!, curve[k]!];
    if (!(n(low) > n(high))) continue;
    complain(low, `${n(low)}`, `at most ${high}, which is ${n(high)}`, 'the voltage rises with the charge');
  }
}

/** A full pack must have a solution of p = (U − R0 i) i at rated power: U² ≥ 4 R0 p/η. */
function checkPower(n: ReadKey, complain: Complain): void {
  const U = n('open_circuit_full') * n('pack_voltage');
  const most = (n('efficiency') * U * U) / (4 * n('pack_resistance'));
  if (!(n('module_power') > most)) return;
  complain(
    'pack_resistance',
    `${formatQuantity(n('pack_resistance'), 'resistance')} behind ${formatQuantity(U, 'voltage', 4)}, which give ${formatQuantity(most, 'power', 4)} at most`,
    `at least the ${formatQuantity(n('module_power'), 'power')} of a module, when full`,
    'lower the resistance or the power, or raise the voltage',
  );
}

function checkVoltageMin(n: ReadKey, complain: Complain): void {
  if (!(n('voltage_min') >= n('open_circuit_full'))) return;
  const full = formatPercent(n('open_circuit_full'), 4);
  complain(
    'voltage_min',
    formatPercent(n('voltage_min'), 4),
    `below open_circuit_full, which is ${full}`,
    'lower it',
  );
}

/** The charger ends by voltage: the curve must rise towards the full one. */
function checkFull(n: ReadKey, complain: Complain): void {
  if (!(n('charge_power') > 0) || n('open_circuit_full') > n('open_circuit_nine_tenths')) return;
  complain(
    'open_circuit_full',
    `${n('open_circuit_full')}, no more than open_circuit_nine_tenths`,
    'a voltage that rises towards full, by which the charge ends',
    'raise it, or write charge_power: 0 W',
  );
}
