/**
 * What an outage may explain. A battery shelf that sleeps, a bar or a bank that is gone leave the AC side as it was; a
 * value there beyond its normal limit has another cause. Anything else that is out may show anywhere.
 */
import type { Stated } from '../record/stated.ts';

/** Of copper: levels, how shelves and sections share over it, how warm it gets, what rings on it. */
const copper = /^(bus-|share-|shelf-|section-|link-|bar-|joint-|tray-|bank-|device-|mode-|trim$)/;

/** Of a bank: what is fast on the bus. */
const bank = /^(bus-|bank-|device-|mode-)/;

/** Of a battery shelf: what batteries do, and the bus that they hold. */
const battery = /^(battery-|bus-)/;

export function reaches(
  { bars, banks, batteries }: Pick<Stated, 'bars' | 'banks' | 'batteries'>,
  who: string,
  quantity: string,
): boolean {
  if (batteries.some(({ id }) => id === who)) return battery.test(quantity);
  if (banks.some(({ id }) => id === who)) return bank.test(quantity);
  const isBar = bars.links.some(({ id }) => id === who) || bars.tie?.id === who || who.includes('.');
  return isBar ? copper.test(quantity) : true;
}
