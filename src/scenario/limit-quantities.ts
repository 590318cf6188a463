/**
 * What a limit row may compare: what its number is a share of, on which side it stands, and what else the row says of it.
 * The rows are data; these names are code.
 */

export interface LimitQuantity {
  /** Rows may be written as shares of it; null: absolute, or a share of a rating of their own. */
  readonly share_of: 'nominal_V' | 'rated_W' | null;
  /** SI unit of the absolute value. */
  readonly unit: string;
  readonly side: 'upper' | 'lower' | 'either';
  /** How long something stays beyond the number: stated, stated or left out, of one length alone [s], or without meaning. */
  readonly stay: 'required' | 'optional' | number | null;
  /** Where a row names a frequency band: how far up the engine shows it [Hz]. */
  readonly band_to_Hz: number | null;
  /**
   * Content that a recorded load must show before it can be judged [Hz], where neither a stay nor a band says so; null: it
   * is about what the cabinet does by itself.
   */
  readonly needs_Hz: number | null;
}

function shown(unit: string, needs_Hz: number | null, more: Partial<LimitQuantity> = {}): LimitQuantity {
  return { share_of: null, unit, side: 'upper', stay: null, band_to_Hz: null, needs_Hz, ...more };
}

/** AC power is kept at 1 kHz, and flat to this [Hz]. */
const acShown_Hz = 300;

/** Beyond it averaged power stages say nothing of a swing [Hz]. */
const swingsShown_Hz = 20e3;

export const quantities = {
  'bus-stay': shown('V', 10e3, { share_of: 'nominal_V', side: 'either', stay: 'required' }),
  'bus-ripple': shown('V', null, { share_of: 'nominal_V', band_to_Hz: swingsShown_Hz }),
  'device-ripple': shown('ratio', null, { band_to_Hz: swingsShown_Hz }),
  'device-hunting': shown('ratio', null, { band_to_Hz: swingsShown_Hz }),
  'ac-band-ripple': shown('ratio', null, { band_to_Hz: acShown_Hz }),
  'ac-tone': shown('ratio', null, { band_to_Hz: acShown_Hz }),
  'ac-ramp-100ms': shown('W/s', 4.4, { share_of: 'rated_W' }),
  'ac-ramp-1s': shown('W/s', 0.44, { share_of: 'rated_W' }),
  'ac-range-10s': shown('W', 10, { share_of: 'rated_W' }),
  'line-current': shown('ratio', 0.2, { stay: 'optional' }),
  'flicker-pst': shown('ratio', 35),
  'flicker-plt': shown('ratio', 35),
  'voltage-change-max': shown('ratio', 44),
  'voltage-change-steady': shown('ratio', 0.44),
  'voltage-change-kept': shown('ratio', 0.88, { stay: 0.5 }),
  'supply-voltage': shown('ratio', null, { side: 'lower', stay: 'required' }),
  'supply-fall': shown('ratio', null, { stay: 'required' }),
  'supply-loading': shown('ratio', 44),
  'ac-energy-share': shown('ratio', null, { band_to_Hz: acShown_Hz }),
  'line-interharmonics': shown('ratio', 50),
  'share-steady-high': shown('ratio', 0.44),
  'share-steady-low': shown('ratio', 0.44),
  'share-transient': shown('ratio', 440),
  'share-settling': shown('s', 44),
  trim: shown('ratio', 0.44),
  'section-balance': shown('ratio', 0.44),
  'link-balance': shown('ratio', 3),
  'bar-heat': shown('ratio', 3),
  'joint-heat': shown('K', 3),
  'shelf-continuous': shown('ratio', 0.44),
  'shelf-peak': shown('ratio', 440),
  'bulk-margin': shown('V', 20, { side: 'lower' }),
  'tray-charge-low': shown('ratio', 0.44, { side: 'lower' }),
  'tray-charge-high': shown('ratio', 0.44),
  'tray-drift': shown('ratio', 0.44),
  'tray-capacitor-rms': shown('ratio', 3),
  'tray-follows': shown('ratio', 44),
  'tray-converter': shown('ratio', 220),
  'tray-hot-spot': shown('degC', 3),
  'tray-life': shown('s', 3, { side: 'lower' }),
  'bank-ripple-rms': shown('ratio', 1e3),
  'bank-voltage': shown('ratio', 10e3),
  'bank-life': shown('s', 1e3, { side: 'lower' }),
  'battery-starts': shown('count', 220),
  'battery-idle-current': shown('ratio', 220),
  'battery-take-over': shown('s', 220),
  'battery-recharge': shown('s', 0.044),
  'battery-current': shown('ratio', 220, { stay: 'optional' }),
  'sled-power': shown('ratio', 220, { stay: 'optional' }),
  'sled-power-1s': shown('ratio', 0.44),
  'trip-margin': shown('ratio', 220),
  'mode-damping': shown('ratio', null, { side: 'lower' }),
} as const satisfies Readonly<Record<string, LimitQuantity>>;

export type QuantityName = keyof typeof quantities;

export const busStay: QuantityName = 'bus-stay';

/** Quantities whose rows compare a level that a unit stays above for the row's stay. */
export const sustained: ReadonlySet<string> = new Set<QuantityName>(['sled-power', 'battery-current']);

/** What the quantities named so average over. */
export const oneSecond_s = 1;

/** A level kept for T, or a mean over it, shows from a recording with content up to 0.44/T on. */
export const contentOfStay = 0.44;

export function isQuantityName(name: string): name is QuantityName {
  return Object.hasOwn(quantities, name);
}
