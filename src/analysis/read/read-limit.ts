/** From a limit's quantity to what the run shows for it. */
import type { Limit } from '../../limits/limit.ts';
import { isQuantityName } from '../../scenario/limit-quantities.ts';
import { readChange, readInterharmonics, readLongFlicker, readShortFlicker } from '../grid/read-grid.ts';
import { readSupplyFall, readSupplyLoading, readSupplyVoltage } from '../grid/read-supply.ts';
import type { Case } from '../record/case.ts';
import { readTrayDrift } from '../record/drift.ts';
import type { Seen } from '../record/seen.ts';
import { readBusRipple, readDeviceHunting, readDeviceRipple } from '../swings/read-swings.ts';
import { readBand, readEnergyShare, readRamp, readRange, readTone } from './ac-side.ts';
import { readBankLife } from './bank-life.ts';
import { readBarHeat, readLinkBalance } from './bars.ts';
import { readBatteryIdle, readBatteryStarts } from './battery.ts';
import { readBatteryCurrent } from './battery-current.ts';
import { readBusStay } from './bus-stay.ts';
import { readBatteryTakeOver } from './hand-over.ts';
import { readJointHeat } from './joints.ts';
import { readLine } from './line.ts';
import { readModeDamping } from './mode-damping.ts';
import type { Reading } from './reading.ts';
import { readRecharge } from './recharge.ts';
import { readSectionBalance } from './section-balance.ts';
import { readSettling } from './settling.ts';
import { readSteadyShare, readTransientShare } from './sharing.ts';
import { readBulkMargin, readShelfContinuous, readShelfPeak } from './shelves.ts';
import { readSledPower, readSledPower1s } from './sleds.ts';
import { readBankRipple, readBankVoltage, readTrayCharge, readTrayRms } from './storage.ts';
import { readTrayConverter } from './tray-converter.ts';
import { readTrayFollows } from './tray-follows.ts';
import { readHotSpot, readTrayLife } from './tray-heat.ts';
import { readTrim } from './trim.ts';
import { readTripMargin } from './trip-margin.ts';

/** Reads one limit off a run. The limit has a value: rows without one are not read. */
export function readLimit(c: Case, limit: Limit, { bands, grid, stability, protection }: Seen): Reading {
  const { quantity } = limit;
  if (!isQuantityName(quantity)) throw new RangeError(`no reading for the quantity ${quantity}`);
  switch (quantity) {
    case 'bus-stay':
      return readBusStay(c, limit);
    case 'bus-ripple':
      return readBusRipple(c, limit);
    case 'device-ripple':
      return readDeviceRipple(c, limit);
    case 'device-hunting':
      return readDeviceHunting(c, limit);
    case 'ac-band-ripple':
      return readBand(c, limit, bands);
    case 'ac-tone':
      return readTone(c, limit);
    case 'ac-ramp-100ms':
      return readRamp(c, 0.1);
    case 'ac-ramp-1s':
      return readRamp(c, 1);
    case 'ac-range-10s':
      return readRange(c);
    case 'line-current':
      return readLine(c, limit);
    case 'flicker-pst':
      return readShortFlicker(c, grid);
    case 'flicker-plt':
      return readLongFlicker(c, grid);
    case 'voltage-change-max':
      return readChange(c, grid, 'change_max', limit);
    case 'voltage-change-steady':
      return readChange(c, grid, 'change_steady', limit);
    case 'voltage-change-kept':
      return readChange(c, grid, 'change_kept', limit);
    case 'supply-voltage':
      return readSupplyVoltage(c, limit);
    case 'supply-fall':
      return readSupplyFall(c, limit);
    case 'supply-loading':
      return readSupplyLoading(c, limit);
    case 'ac-energy-share':
      return readEnergyShare(c, limit);
    case 'line-interharmonics':
      return readInterharmonics(grid);
    case 'share-steady-high':
      return readSteadyShare(c, 0.5, Number.POSITIVE_INFINITY);
    case 'share-steady-low':
      return readSteadyShare(c, 0.2, 0.5);
    case 'share-transient':
      return readTransientShare(c);
    case 'share-settling':
      return readSettling(c);
    case 'link-balance':
      return readLinkBalance(c);
    case 'bar-heat':
      return readBarHeat(c);
    case 'joint-heat':
      return readJointHeat(c);
    case 'shelf-peak':
      return readShelfPeak(c);
    case 'bank-voltage':
      return readBankVoltage(c);
    case 'bank-life':
      return readBankLife(c);
    case 'trip-margin':
      return readTripMargin(protection);
    case 'mode-damping':
      return readModeDamping(stability);
    case 'tray-follows':
      return readTrayFollows(c);
    case 'tray-hot-spot':
      return readHotSpot(c);
    case 'tray-life':
      return readTrayLife(c);
    case 'battery-take-over':
      return readBatteryTakeOver(c);
    case 'battery-recharge':
      return readRecharge(c, limit);
    case 'trim':
      return readTrim(c);
    case 'section-balance':
      return readSectionBalance(c);
    case 'shelf-continuous':
      return readShelfContinuous(c);
    case 'bulk-margin':
      return readBulkMargin(c);
    case 'tray-charge-low':
      return readTrayCharge(c, 'low');
    case 'tray-charge-high':
      return readTrayCharge(c, 'high');
    case 'tray-drift':
      return readTrayDrift(c, limit);
    case 'tray-capacitor-rms':
      return readTrayRms(c);
    case 'bank-ripple-rms':
      return readBankRipple(c);
    case 'battery-starts':
      return readBatteryStarts(c);
    case 'battery-idle-current':
      return readBatteryIdle(c);
    case 'battery-current':
      return readBatteryCurrent(c, limit);
    case 'tray-converter':
      return readTrayConverter(c);
    case 'sled-power':
      return readSledPower(c, limit);
    case 'sled-power-1s':
      return readSledPower1s(c);
  }
}
