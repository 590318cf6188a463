/** The run in fifteen numbers. */
import type { ChannelKind } from '../../channels/channel.ts';
import type { Extreme } from '../../engine/result.ts';
import { batteryStarts } from '../read/battery.ts';
import { readSteadyShare } from '../read/sharing.ts';
import { worstTrayRms_A } from '../read/storage.ts';
import { meansFromBefore } from '../record/before-start.ts';
import { type Case, channelsOf, extremeOf, meanSquareOf } from '../record/case.ts';
import { finite } from '../signal/finite.ts';
import { steepestRamp } from '../signal/ramp.ts';
import type { Metrics } from './report.ts';

export function metricsOf(c: Case): Metrics {
  const { result, scenario } = c;
  const acMean = meanSquareOf(result, 'total.ac_power_W')?.mean ?? Number.NaN;
  const ac = extremeOf(result, 'total.ac_power_W');
  const bus = extremesOf(c, 'node-voltage');
  const charge = extremesOf(c, 'tray-charge');
  const links = scenario.bars.links.flatMap((link) => extremeOf(result, `${link.id}.current_A`) ?? []);
  return {
    bus_min_V: least(bus),
    bus_max_V: most(bus),
    shelf_current_max_A: most(extremesOf(c, 'shelf-current')),
    share_error_steady_ratio: finite(steadyShare(c)),
    share_error_transient_ratio: finite(result.share.transient?.ratio),
    ac_power_mean_W: finite(acMean),
    ac_power_ripple_ratio: ac === null ? null : finite((ac.max - ac.min) / acMean),
    ac_ramp_100ms_W_per_s: ramp(c, 0.1),
    ac_ramp_1s_W_per_s: ramp(c, 1),
    ac_line_current_rms_A: finite(meanSquareOf(result, 'total.line_current_A')?.rms),
    tray_soc_min_ratio: least(charge),
    tray_soc_max_ratio: most(charge),
    tray_capacitor_current_rms_A: finite(worstTrayRms_A(c)),
    battery_starts_count: batteryStarts(c).length,
    link_bar_current_max_A: finite(
      links.reduce((top, e) => Math.max(top, e.max, -e.min), Number.NEGATIVE_INFINITY),
    ),
  };
}

/** As the limits read it; where they find no steady time, what the meter saw. */
function steadyShare(c: Case): number | undefined {
  return readSteadyShare(c, 0, Number.POSITIVE_INFINITY).value ?? c.result.share.steady?.ratio;
}

/** Steepest ramp anywhere in the window, whether or not the limit applies there. */
function ramp(c: Case, window_s: number): number | null {
  const means = meansFromBefore(c, 'total.ac_power_W', window_s);
  const found = means === null ? null : steepestRamp(means.values, means.from_s, means.width_s, window_s, []);
  return found === null ? null : finite(Math.abs(found.ramp));
}

function extremesOf(c: Case, kind: ChannelKind): Extreme[] {
  return channelsOf(c.result, kind).flatMap(({ id }) => extremeOf(c.result, id) ?? []);
}

function least(extremes: readonly Extreme[]): number | null {
  return finite(extremes.reduce((low, e) => Math.min(low, e.min), Number.POSITIVE_INFINITY));
}

function most(extremes: readonly Extreme[]): number | null {
  return finite(extremes.reduce((high, e) => Math.max(high, e.max), Number.NEGATIVE_INFINITY));
}
