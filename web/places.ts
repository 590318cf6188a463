/** Where on the page a limit's quantity is drawn: the element that a finding leads to. */
import type { Finding } from '../src/analysis/judge/report.ts';
import { isQuantityName, type QuantityName } from '../src/scenario/limit-quantities.ts';
import type { Scenario } from '../src/scenario/scenario.ts';

export type Place =
  | 'panel-bus'
  | 'panel-carriers'
  | 'panel-ac'
  | 'panel-ramps'
  | 'panel-trays'
  | 'panel-shelves'
  | 'cabinet'
  | 'grid'
  | 'papers';

const places: Readonly<globalThis.Record<QuantityName, Place>> = {
  'bus-stay': 'panel-bus',
  'bus-ripple': 'panel-bus',
  'device-ripple': 'panel-carriers',
  'device-hunting': 'panel-carriers',
  'ac-band-ripple': 'panel-ac',
  'ac-tone': 'panel-ac',
  'ac-ramp-100ms': 'panel-ramps',
  'ac-ramp-1s': 'panel-ramps',
  'ac-range-10s': 'panel-ac',
  'line-current': 'panel-ac',
  'flicker-pst': 'grid',
  'flicker-plt': 'grid',
  'voltage-change-max': 'grid',
  'voltage-change-steady': 'grid',
  'voltage-change-kept': 'grid',
  'supply-voltage': 'grid',
  'supply-fall': 'grid',
  'supply-loading': 'grid',
  'ac-energy-share': 'panel-ac',
  'line-interharmonics': 'grid',
  'share-steady-high': 'panel-shelves',
  'share-steady-low': 'panel-shelves',
  'share-transient': 'panel-shelves',
  'share-settling': 'panel-shelves',
  trim: 'panel-shelves',
  'section-balance': 'cabinet',
  'link-balance': 'cabinet',
  'bar-heat': 'cabinet',
  'joint-heat': 'cabinet',
  'shelf-continuous': 'panel-shelves',
  'shelf-peak': 'panel-shelves',
  'bulk-margin': 'panel-shelves',
  'tray-charge-low': 'panel-trays',
  'tray-charge-high': 'panel-trays',
  'tray-drift': 'panel-trays',
  'tray-capacitor-rms': 'panel-trays',
  'tray-follows': 'panel-trays',
  'tray-converter': 'panel-trays',
  'tray-hot-spot': 'panel-trays',
  'tray-life': 'panel-trays',
  'bank-ripple-rms': 'panel-carriers',
  'bank-voltage': 'panel-bus',
  'bank-life': 'panel-carriers',
  'battery-starts': 'panel-carriers',
  'battery-idle-current': 'panel-carriers',
  'battery-take-over': 'panel-carriers',
  'battery-recharge': 'panel-carriers',
  'battery-current': 'panel-carriers',
  'sled-power': 'panel-carriers',
  'sled-power-1s': 'panel-carriers',
  'trip-margin': 'panel-carriers',
  'mode-damping': 'papers',
};

export function placeOf({ id }: Pick<Finding, 'id'>, { limits }: Pick<Scenario, 'limits'>): Place {
  const quantity = limits.find((row) => row.id === id)?.quantity ?? '';
  return isQuantityName(quantity) ? places[quantity] : 'panel-bus';
}
