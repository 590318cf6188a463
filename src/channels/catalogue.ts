/** Builds the catalogue of a cabinet's channels, in the order in which the engine reads them. */
import { type Channel, totals } from './channel.ts';

export interface Owners {
  readonly nodes: readonly string[];
  /** Bars without the sleds' contacts: a contact's current is its sled's. */
  readonly bars: readonly string[];
  readonly shelves: readonly string[];
  readonly trays: readonly string[];
  readonly banks: readonly string[];
  readonly batteries: readonly string[];
  readonly sleds: readonly string[];
}

/** One channel per owner and quantity. */
export function catalogue(owners: Owners): readonly Channel[] {
  const of = (
    kind: Channel['kind'],
    quantity: string,
    unit: Channel['unit'],
    ids: readonly string[],
  ): Channel[] => ids.map((owner) => ({ id: `${owner}.${quantity}_${unit}`, kind, owner, unit }));
  return [
    ...of('node-voltage', 'voltage', 'V', owners.nodes),
    ...of('bar-current', 'current', 'A', owners.bars),
    ...of('shelf-current', 'current', 'A', owners.shelves),
    ...of('shelf-bulk', 'bulk', 'V', owners.shelves),
    ...of('shelf-trim', 'trim', 'V', owners.shelves),
    ...of('shelf-ac-power', 'ac_power', 'W', owners.shelves),
    ...of('tray-power', 'power', 'W', owners.trays),
    ...of('tray-charge', 'charge', 'ratio', owners.trays),
    ...of('tray-voltage', 'capacitor', 'V', owners.trays),
    ...of('tray-current', 'capacitor_current', 'A', owners.trays),
    ...of('bank-current', 'current', 'A', owners.banks),
    ...of('battery-current', 'current', 'A', owners.batteries),
    ...of('battery-charge', 'charge', 'ratio', owners.batteries),
    ...of('sled-power', 'power', 'W', owners.sleds),
    ...totals.map(
      (id): Channel => ({
        id: `total.${id}`,
        kind: 'total',
        owner: 'total',
        unit: id.endsWith('_A') ? 'A' : 'W',
      }),
    ),
  ];
}
