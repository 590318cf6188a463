/**
 * The one catalogue of named quantities. Recorder, meters, analysis, files and page all name a channel by
 * its `id`; the id ends in the SI unit.
 */
export const channelKinds = [
  'node-voltage',
  'bar-current',
  'shelf-current',
  'shelf-bulk',
  'shelf-trim',
  'shelf-ac-power',
  'tray-power',
  'tray-charge',
  'tray-voltage',
  'tray-current',
  'bank-current',
  'battery-current',
  'battery-charge',
  'sled-power',
  'suppressor-heat',
  'supply-voltage',
  'own',
  'total',
] as const;

export type ChannelKind = (typeof channelKinds)[number];

export const channelUnits = ['V', 'A', 'W', 'ratio'] as const;

export type ChannelUnit = (typeof channelUnits)[number];

export interface Channel {
  /** For example `A.S1.voltage_V`, `S1.current_A`, `T4.charge_ratio`, `total.ac_power_W`. */
  readonly id: string;
  readonly kind: ChannelKind;
  /** Node, bar or unit it belongs to; `total` for sums. */
  readonly owner: string;
  readonly unit: ChannelUnit;
}

/** One quantity that every owner shows: a channel for each. */
export interface Shown {
  readonly kind: ChannelKind;
  /** Its name in a channel's id, for example `current` of `S1.current_A`. */
  readonly quantity: string;
  readonly unit: ChannelUnit;
  readonly owners: readonly string[];
}

/**
 * Sums over the cabinet: `total.load_W` (all sleds), `total.shelves_W` (DC power of the shelves),
 * `total.trays_W`, `total.batteries_W`, `total.capacitors_W` (banks, the small capacitors, and what suppressors take),
 * `total.ac_power_W`, `total.line_current_A` (RMS per phase, all shelves), `total.smoothed_W` (w).
 */
export const totals = [
  'load_W',
  'shelves_W',
  'trays_W',
  'batteries_W',
  'capacitors_W',
  'ac_power_W',
  'line_current_A',
  'smoothed_W',
] as const;

export type Total = (typeof totals)[number];
