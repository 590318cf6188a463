/** Trays and banks: state of charge, capacitor current, ripple current; how hard they work. */
import { type Case, channelsOf, extremeOf, meanSquareOf, outSpans, worst } from '../record/case.ts';
import { harderSquare } from '../record/going-on.ts';
import { overHeat } from '../record/long-enough.ts';
import { cannotArise, type Reading } from './reading.ts';

export function readTrayCharge(c: Case, side: 'low' | 'high'): Reading {
  const charges = channelsOf(c.result, 'tray-charge').flatMap(({ id, owner }) => {
    const extreme = extremeOf(c.result, id);
    if (extreme === null) return [];
    const low = side === 'low';
    return [
      {
        owner,
        charge: low ? extreme.min : extreme.max,
        time_s: low ? extreme.min_s : extreme.max_s,
        swing: extreme.max - extreme.min,
      },
    ];
  });
  const most = worst(charges, (t) => (side === 'low' ? -t.charge : t.charge));
  if (most === null) return cannotArise('the cabinet has no trays');
  return { value: most.charge, node: most.owner, time_s: most.time_s, reason: harder(c) };
}

export function readTrayRms(c: Case): Reading {
  const most = worst(trayRms(c), (t) => t.ratio);
  if (most === null) return cannotArise('the cabinet has no trays');
  const reading = { value: most.ratio, node: most.id, reason: harder(c) };
  const tray = c.scenario.trays.find((t) => t.id === most.id);
  return overHeat(c, tray?.values.thermal_time_s ?? 0, reading);
}

/** Highest voltage at a bank over the rating of its capacitors. */
export function readBankVoltage(c: Case): Reading {
  const ratios = c.scenario.banks.flatMap(({ id, values }) => {
    const section = c.scenario.sections.find(({ order }) => order.includes(id));
    const extreme = section === undefined ? null : extremeOf(c.result, `${section.id}.${id}.voltage_V`);
    if (extreme === null || !(values.rated_voltage_V > 0)) return [];
    const rated_V = values.rated_voltage_V;
    return [{ id, ratio: extreme.max / rated_V, nominal: c.noLoad_V / rated_V, time_s: extreme.max_s }];
  });
  const most = worst(ratios, (r) => r.ratio);
  if (most === null) return cannotArise('no bank states its rated voltage');
  return { value: most.ratio, nominal: most.nominal, node: most.id, time_s: most.time_s };
}

/** RMS of what the bank's current leaves beside its mean, over its rating, worst bank. */
export function readBankRipple(c: Case): Reading {
  const ratios = channelsOf(c.result, 'bank-current').flatMap(({ id, owner }) => {
    const bank = c.scenario.banks.find((b) => b.id === owner);
    const current = harderSquare(c, id);
    if (bank === undefined || current === null) return [];
    const ripple = Math.sqrt(Math.max(0, current.rms * current.rms - current.mean * current.mean));
    return [{ id: owner, ratio: ripple / bank.values.ripple_current_rating_A }];
  });
  const most = worst(ratios, (r) => r.ratio);
  if (most === null) return cannotArise('the cabinet has no banks');
  const bank = c.scenario.banks.find((b) => b.id === most.id);
  return overHeat(c, bank?.values.thermal_time_s ?? 0, {
    value: most.ratio,
    node: most.id,
  });
}

/** RMS capacitor current of each tray over its rating, over the window or what goes on after a change. */
function trayRms(c: Case): { id: string; ratio: number }[] {
  return channelsOf(c.result, 'tray-current').flatMap(({ id, owner }) => {
    const tray = c.scenario.trays.find((t) => t.id === owner);
    const current = harderSquare(c, id);
    if (tray === undefined || current === null) return [];
    return [{ id: owner, ratio: current.rms / tray.values.capacitor_current_rms_rating_A }];
  });
}

/** RMS capacitor current of the worst tray over the window [A], for the metrics. */
export function worstTrayRms_A(c: Case): number | null {
  const rms = channelsOf(c.result, 'tray-current').map(({ id }) => meanSquareOf(c.result, id)?.rms ?? null);
  return rms.reduce((most, one) => (one !== null && one > (most ?? 0) ? one : most), null);
}

/**
 * A pass hides how hard the trays work, above all when some are out or aged: how much of the voltage window
 * and of the RMS rating it takes. null without trays.
 */
function harder(c: Case): string | null {
  const out = c.scenario.trays.map(({ id }) => id).filter((id) => outSpans(c, id).length > 0);
  const swings = channelsOf(c.result, 'tray-charge').flatMap(({ id, owner }) => {
    const extreme = out.includes(owner) ? null : extremeOf(c.result, id);
    return extreme === null ? [] : [{ ...extreme, swing: extreme.max - extreme.min }];
  });
  const widest = worst(swings, (s) => s.swing);
  const hardest = worst(
    trayRms(c).filter((t) => !out.includes(t.id)),
    (t) => t.ratio,
  );
  if (widest === null || hardest === null) return null;
  const percent = (x: number): string => `${(100 * x).toFixed(0)} %`;
  return (
    `${out.length > 0 ? `${out.join(', ')} out: ` : ''}a tray uses ${percent(widest.swing)} of its window ` +
    `(${percent(widest.min)} to ${percent(widest.max)}) and ${percent(hardest.ratio)} of its RMS rating`
  );
}
