/** What a limit row may compare, and what its number is a share of. The rows are data; these names are code. */

/** Absolute rows keep their number; the others are shares of the nominal voltage or of the rated power. */
export interface QuantityScale {
  readonly share_of: 'nominal_V' | 'rated_W' | null;
  /** SI unit of the absolute value. */
  readonly unit: string;
}

const plain = (unit: string): QuantityScale => ({ share_of: null, unit });

export const quantities = {
  'bus-stay': { share_of: 'nominal_V', unit: 'V' },
  'bus-ripple': { share_of: 'nominal_V', unit: 'V' },
  'device-ripple': plain('ratio'),
  'device-hunting': plain('ratio'),
  'ac-band-ripple': plain('ratio'),
  'ac-tone': plain('ratio'),
  'ac-ramp-100ms': { share_of: 'rated_W', unit: 'W/s' },
  'ac-ramp-1s': { share_of: 'rated_W', unit: 'W/s' },
  'ac-range-10s': { share_of: 'rated_W', unit: 'W' },
  'line-current': plain('ratio'),
  'flicker-pst': plain('ratio'),
  'flicker-plt': plain('ratio'),
  'voltage-change-max': plain('ratio'),
  'voltage-change-steady': plain('ratio'),
  'voltage-change-kept': plain('ratio'),
  'ac-energy-share': plain('ratio'),
  'line-interharmonics': plain('ratio'),
  'share-steady-high': plain('ratio'),
  'share-steady-low': plain('ratio'),
  'share-transient': plain('ratio'),
  'share-settling': plain('s'),
  trim: plain('ratio'),
  'section-balance': plain('ratio'),
  'link-balance': plain('ratio'),
  'bar-heat': plain('ratio'),
  'joint-heat': plain('K'),
  'shelf-continuous': plain('ratio'),
  'shelf-peak': plain('ratio'),
  'bulk-margin': plain('V'),
  'tray-charge-low': plain('ratio'),
  'tray-charge-high': plain('ratio'),
  'tray-drift': plain('ratio'),
  'tray-capacitor-rms': plain('ratio'),
  'tray-follows': plain('ratio'),
  'tray-converter': plain('ratio'),
  'tray-hot-spot': plain('degC'),
  'tray-life': plain('s'),
  'bank-ripple-rms': plain('ratio'),
  'bank-voltage': plain('ratio'),
  'bank-life': plain('s'),
  'battery-starts': plain('count'),
  'battery-idle-current': plain('ratio'),
  'battery-take-over': plain('s'),
  'battery-recharge': plain('s'),
  'battery-current': plain('ratio'),
  'sled-power': plain('ratio'),
  'sled-power-1s': plain('ratio'),
  'mode-damping': plain('ratio'),
} as const satisfies Readonly<Record<string, QuantityScale>>;

export type QuantityName = keyof typeof quantities;

export const busStay: QuantityName = 'bus-stay';

/** Quantities whose rows compare a level that a unit stays above for the row's stay. */
export const sustained: ReadonlySet<string> = new Set<QuantityName>(['sled-power', 'battery-current']);

/** What the quantities named so average over. */
export const oneSecond_s = 1;

export function isQuantityName(name: string): name is QuantityName {
  return Object.hasOwn(quantities, name);
}
