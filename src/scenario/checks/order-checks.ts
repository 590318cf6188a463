/** Pairs of values that must stand in order, and weights that must weigh something. */
import { formatQuantity } from '../../base/quantity.ts';
import { idsOf, type Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import type { Family } from '../tables.ts';
import { say } from '../text/say.ts';

/** Pairs of values of which the first must be below the second, by family or prefix. */
const orders: readonly (readonly [holder: Family | string, low: string, high: string])[] = [
  ['trays', 'voltage_low', 'voltage_high'],
  ['shelves', 'bulk_voltage_min', 'bulk_voltage'],
  ['shelves', 'bulk_voltage', 'bulk_voltage_resume'],
  ['shelves', 'bulk_voltage_resume', 'bulk_voltage_max'],
  ['shelves', 'brown_out', 'brown_in'],
  ['shelves', 'sustained_power_limit', 'output_power_limit'],
  ['sleds', 'cut_off_voltage', 'restart_voltage'],
  ['batteries', 'charge_cold_stop', 'charge_cold'],
  ['batteries', 'charge_cold', 'charge_hot'],
  ['batteries', 'charge_hot', 'charge_hot_stop'],
  ['firmware.handover', 'charge_wait_min', 'charge_wait_max'],
  ['firmware.smoothing', 'load_low', 'load_high'],
  ['firmware.smoothing', 'charge_low', 'charge_high'],
];

export function checkOrders(structure: Structure, sheet: Sheet): void {
  const said = new Set<string>();
  for (const [holder, low, high] of orders) {
    const units = structure.units.get(holder as Family);
    const prefixes = units === undefined ? [holder] : units.map(({ text }) => `${holder}.${text}`);
    for (const prefix of prefixes) {
      const below = sheet.cells.get(`${prefix}.${low}`);
      const above = sheet.cells.get(`${prefix}.${high}`);
      if (typeof below?.value !== 'number' || typeof above?.value !== 'number') continue;
      if (below.value < above.value || below.field.kind !== 'quantity') continue;
      // All units of one model: once is enough.
      const key = JSON.stringify([holder, low, below.origin, above.origin]);
      if (said.has(key)) continue;
      said.add(key);
      const { dimension } = below.field.spec;
      say(
        sheet,
        below.origin ?? above.origin,
        `${prefix}.${low}`,
        formatQuantity(below.value, dimension),
        `below ${high}, which is ${formatQuantity(above.value, dimension)}`,
        `lower ${low} or raise ${high}`,
      );
    }
  }
  const total = idsOf(structure, 'sleds').reduce((sum, id) => sum + sheet.number(`sleds.${id}.weight`), 0);
  if (total === 0) {
    say(
      sheet,
      null,
      'sleds.weight',
      'weights that sum to 0',
      'at least one weight above 0',
      'give a sled a weight',
    );
  }
}
