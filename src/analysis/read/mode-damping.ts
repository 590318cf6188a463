/** Whether the linear model, at the points where the run rests, has a mode that grows or hardly decays. */
import type { PointLookedAt, Stability } from '../../linear/stability.ts';
import { notShown, type Reading, unsettled } from './reading.ts';

/**
 * The least damping ratio, −Re(s)/|s|, of a mode that swings below 20 kHz or grows, over all points looked at. A point
 * that was not looked at may be worse than those that were: then a pass cannot be told.
 */
export function readModeDamping({ worst, not_looked }: Stability): Reading {
  const missing = not_looked.join('; ');
  if (worst === null) return notShown(`not looked at: ${missing}`);
  const { mode, from_s } = worst;
  // Loops too slow to be looked at, and nothing else: what is not there decays at once.
  if (mode === null) return { value: 1, reason: 'no mode swings within the range looked at' };
  const reading: Reading = {
    value: mode.damping_ratio,
    node: mode.owners[0]?.name ?? null,
    time_s: from_s,
    reason: words(worst),
  };
  return missing === '' ? reading : unsettled(reading, `not looked at: ${missing}`, 'worse');
}

function words({ mode, load_W, carrying }: PointLookedAt): string {
  if (mode === null) return '';
  const { frequency_Hz, growth_per_s, owners } = mode;
  const kind =
    growth_per_s > 0
      ? `grows by e in ${text(1 / growth_per_s)} s`
      : `decays by e in ${text(-1 / growth_per_s)} s`;
  const whose =
    owners.length === 0
      ? ''
      : `, of ${owners
          .slice(0, 3)
          .map(({ name }) => name)
          .join(', ')}`;
  const held = carrying.length === 0 ? '' : ` with ${carrying.join(', ')} carrying`;
  return `${text(frequency_Hz)} Hz ${kind}${whose}, at ${text(Math.abs(load_W) < 1 ? 0 : load_W / 1e3)} kW${held}`;
}

function text(value: number): string {
  return String(Number(value.toPrecision(3)));
}
