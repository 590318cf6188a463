/** Parts that belong on a bus of another voltage: what each states of its own against the cabinet's nominal voltage. */
import { formatQuantity } from '../../base/quantity.ts';
import { fittedUnits, idsOf, type Structure } from '../sections/structure.ts';
import { asWritten, type Sheet } from '../sheet.ts';
import { problemAt } from '../text/document.ts';
import { isUnusual } from './usual-checks.ts';

/** From and to, over nominal; null: no bound there. */
type Window = readonly [low: number | null, high: number | null];

/**
 * Ratings and set points lie about nominal; thresholds below it, as converters of a range of two to one allow at most; what
 * stands across the bus bears at least nominal. The windows are wide enough for any bus of a class and narrow enough that twice
 * or half the voltage is another one (assumed).
 */
const about: Window = [3 / 4, 4 / 3];
const below: Window = [1 / 2, 1];
const threshold: Window = [1 / 2, 4 / 3];
const bears: Window = [1, null];

const unitWindows = {
  shelves: { rated_voltage: about, set_point: about },
  batteries: { rated_voltage: about },
  banks: { rated_voltage: bears },
  sleds: {
    constant_power_voltage: below,
    cut_off_voltage: below,
    restart_voltage: threshold,
    suppressor_voltage: bears,
  },
} as const;

const handoverWindows = {
  trigger_voltage: threshold,
  set_point_on_loss: about,
  set_point_asleep: threshold,
} as const;

/** Whether all parts fit. */
export function checkVoltages(structure: Structure, sheet: Sheet): boolean {
  const nominal_V = sheet.number('nominal');
  if (!(nominal_V > 0)) return false;
  const before = sheet.problems.length;
  const said = new Set<string>();
  const check = (path: string, window: Window): void => {
    const cell = sheet.cells.get(path);
    // 0 is what is not there, or not stated.
    if (typeof cell?.value !== 'number' || cell.value === 0) return;
    const [low, high] = window.map((x) => (x === null ? null : x * nominal_V));
    if (cell.value >= (low ?? 0) && cell.value <= (high ?? Number.POSITIVE_INFINITY)) return;
    // All units of one model: once is enough.
    const once = JSON.stringify([cell.origin ?? path, path.split('.').at(-1), cell.value]);
    if (said.has(once)) return;
    said.add(once);
    const volts = (x: number): string => formatQuantity(x, 'voltage', 4);
    const range = high === null ? `at least ${volts(low!)}` : `${volts(low!)} to ${volts(high!)}`;
    sheet.problems.push(
      problemAt(
        cell.origin,
        path,
        volts(cell.value),
        `${range}, as fits a bus of nominal ${volts(nominal_V)}`,
        'take a part made for this bus, or write the nominal voltage of the parts',
      ),
    );
  };
  for (const [family, windows] of Object.entries(unitWindows)) {
    const ids =
      family === 'sleds'
        ? idsOf(structure, 'sleds')
        : fittedUnits(structure, family as keyof typeof unitWindows, sheet).map(({ text }) => text);
    for (const id of ids)
      for (const [key, window] of Object.entries(windows)) check(`${family}.${id}.${key}`, window);
  }
  for (const { text: id } of fittedUnits(structure, 'trays', sheet)) warnOfTray(id, nominal_V, sheet, said);
  if (fittedUnits(structure, 'batteries', sheet).length > 0)
    for (const [key, window] of Object.entries(handoverWindows)) check(`firmware.handover.${key}`, window);
  return sheet.problems.length === before;
}

/**
 * A tray states no voltage of its bus, but a power and a current: the voltage at which both limits meet tells. Where its output
 * capacitance is not that of such a bus either, it is a part of another one.
 */
function warnOfTray(id: string, nominal_V: number, sheet: Sheet, said: Set<string>): void {
  const limit = sheet.cells.get(`trays.${id}.bus_current_limit`);
  const meets_V = sheet.number(`trays.${id}.power_limit`) / sheet.number(`trays.${id}.bus_current_limit`);
  const [low, high] = [nominal_V / 2, nominal_V * 2];
  if (!(meets_V < low || meets_V > high) || limit === undefined) return;
  const once = JSON.stringify([limit.origin ?? id, 'tray', meets_V]);
  if (said.has(once)) return;
  said.add(once);
  const volts = (x: number): string => formatQuantity(x, 'voltage', 3);
  const output = sheet.cells.get(`trays.${id}.output_capacitance`);
  const isOther = output !== undefined && isUnusual(output, nominal_V);
  const also = isOther
    ? `, with an output_capacitance of ${formatQuantity(asWritten(output) as number, 'capacitance', 3)}`
    : '';
  sheet.problems.push(
    problemAt(
      limit.origin,
      `trays.${id}.bus_current_limit`,
      `${formatQuantity(limit.value as number, 'current')}, which is power_limit at ${volts(meets_V)}${also}`,
      `power_limit over ${volts(low)} to ${volts(high)}, as fits a bus of nominal ${volts(nominal_V)}`,
      isOther
        ? 'take a tray made for this bus, or write the nominal voltage of the parts'
        : 'keep it if one of the two limits is meant to be loose',
      isOther ? 'error' : 'warning',
    ),
  );
}
