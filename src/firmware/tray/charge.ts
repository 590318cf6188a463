/**
 * The trays' charge schedule and limits: how full a tray should be at a given smoothed load, and what power
 * it can give or take just now.
 *
 *   E*(w) = clamp(E_mid − (τ_s/N)(w − (P_lo + P_hi)/2), charge_low … charge_high of the window)
 * With that slope N E + τ_s w does not move with the load, so the loop sees only losses and errors.
 */
import type { TrayRatings } from '../../devices/tray/tray-ports.ts';
import type { SmoothingValues } from '../../scenario/parameters/smoothing.ts';

/** Energy above an empty bank that tray k should hold [J] when `count` trays share the smoothed load w [W]. */
export function scheduledEnergy_J(
  values: SmoothingValues,
  trays: TrayRatings,
  k: number,
  w: number,
  count: number,
): number {
  const low = trays.lowest_J[k]!;
  const window = trays.window_J[k]!;
  const middle = (values.load_low_W + values.load_high_W) / 2;
  const wanted = low + window / 2 - (values.time_constant_s / count) * (w - middle);
  const least = low + values.charge_low_ratio * window;
  const most = low + values.charge_high_ratio * window;
  return wanted < least ? least : wanted > most ? most : wanted;
}

/**
 * Share of the current of greatest power, u/(2 R), that is used: 96 % of that power. Assumed: beyond it the bank's
 * voltage falls faster than its current rises, and a converter asking for power loses its footing.
 */
const foothold = 0.8;

/** The bank's own resistance holds tray k below its current limit at capacitor voltage u. */
export function isStrained(trays: TrayRatings, k: number, u: number): boolean {
  const { capacitor_current_limit_A, esr_ohm } = trays.columns;
  return (foothold * u) / (2 * esr_ohm[k]!) < capacitor_current_limit_A[k]!;
}

/** Most power tray k can give at capacitor voltage u and bus voltage v [W], tapered towards an empty bank. */
export function mostOut_W(trays: TrayRatings, k: number, u: number, v: number): number {
  const c = trays.columns;
  const I = isStrained(trays, k, u) ? (foothold * u) / (2 * c.esr_ohm[k]!) : c.capacitor_current_limit_A[k]!;
  const terminal = I * u - c.esr_ohm[k]! * I * I;
  const byCapacitor = (terminal - c.standing_loss_W[k]!) * c.efficiency_ratio[k]!;
  return (
    least3(c.power_limit_W[k]!, trays.mostCurrent_A(k, v) * v, byCapacitor) *
    taper(c.voltage_low_V[k]!, u, k, trays)
  );
}

/** Most power tray k can take [W, positive], tapered towards a full bank. */
export function mostIn_W(trays: TrayRatings, k: number, u: number, v: number): number {
  const c = trays.columns;
  const I = c.capacitor_current_limit_A[k]!;
  const terminal = I * u + c.esr_ohm[k]! * I * I;
  const byCapacitor = (terminal + c.standing_loss_W[k]!) / c.efficiency_ratio[k]!;
  return (
    least3(c.power_limit_W[k]!, trays.mostCurrent_A(k, v) * v, byCapacitor) *
    taper(c.voltage_high_V[k]!, u, k, trays)
  );
}

/** What holds a tray to less than it is asked for. */
export const trayLimits = ['power', 'current', 'bank', 'window'] as const;

export type TrayLimit = (typeof trayLimits)[number];

/** What holds tray k at capacitor voltage u and bus voltage v, giving power or taking it. */
export function trayLimit(trays: TrayRatings, k: number, u: number, v: number, gives: boolean): TrayLimit {
  const c = trays.columns;
  if (taper(gives ? c.voltage_low_V[k]! : c.voltage_high_V[k]!, u, k, trays) < 1) return 'window';
  const most = gives ? mostOut_W(trays, k, u, v) : mostIn_W(trays, k, u, v);
  if (most === c.power_limit_W[k]!) return 'power';
  const byBank = gives && isStrained(trays, k, u) && most < c.bus_current_limit_A[k]! * v;
  return byBank ? 'bank' : 'current';
}

function least3(a: number, b: number, c: number): number {
  const ab = a < b ? a : b;
  const least = ab < c ? ab : c;
  return least > 0 ? least : 0;
}

/** 1 inside the window, falling to 0 over its last part towards `end`. */
function taper(end: number, u: number, k: number, trays: TrayRatings): number {
  const c = trays.columns;
  const span = c.taper_ratio[k]! * (c.voltage_high_V[k]! - c.voltage_low_V[k]!);
  const inside = (end === c.voltage_low_V[k]! ? u - end : end - u) / span;
  return inside > 1 ? 1 : inside > 0 ? inside : 0;
}
