/**
 * What power a tray can give or take just now, by its converter, its bank and the ends of its window; and what holds it.
 * Of numbers alone where it is part of the charge law, whose text is also translated to C (`scripts/c99/`).
 */
import type { Int } from '../../base/int.ts';
import { mostBusCurrent_A, type TrayRatings } from '../../devices/tray/tray-ratings.ts';

/**
 * Share of the current of greatest power, u/(2 R), that is used: 96 % of that power. Assumed: beyond it the bank's
 * voltage falls faster than its current rises, and a converter asking for power loses its footing.
 */
const foothold = 0.8;

/** The bank's own resistance holds tray k below its current limit at capacitor voltage u. */
export function isStrained(trays: TrayRatings, k: Int, u: number): boolean {
  const { capacitor_current_limit_A, esr_ohm } = trays.columns;
  return (foothold * u) / (2 * esr_ohm[k]!) < capacitor_current_limit_A[k]!;
}

/** Most power tray k can give at capacitor voltage u and bus voltage v [W], tapered towards an empty bank. */
export function mostOut_W(trays: TrayRatings, k: Int, u: number, v: number): number {
  const c = trays.columns;
  const I = isStrained(trays, k, u) ? (foothold * u) / (2 * c.esr_ohm[k]!) : c.capacitor_current_limit_A[k]!;
  const terminal = I * u - c.esr_ohm[k]! * I * I;
  const byCapacitor = (terminal - c.standing_loss_W[k]!) * c.efficiency_ratio[k]!;
  return (
    least3(c.power_limit_W[k]!, mostBusCurrent_A(trays, k, v) * v, byCapacitor) *
    taper(c.voltage_low_V[k]!, u, k, trays)
  );
}

/** Most power tray k can take [W, positive], tapered towards a full bank. */
export function mostIn_W(trays: TrayRatings, k: Int, u: number, v: number): number {
  const c = trays.columns;
  const I = c.capacitor_current_limit_A[k]!;
  const terminal = I * u + c.esr_ohm[k]! * I * I;
  const byCapacitor = (terminal + c.standing_loss_W[k]!) / c.efficiency_ratio[k]!;
  return (
    least3(c.power_limit_W[k]!, mostBusCurrent_A(trays, k, v) * v, byCapacitor) *
    taper(c.voltage_high_V[k]!, u, k, trays)
  );
}

/** What is asked of tray k, held to what it can do at capacitor voltage u and bus voltage v [W]. */
export function within_W(trays: TrayRatings, k: Int, asked_W: number, u: number, v: number): number {
  if (asked_W > 0) {
    const out_W = mostOut_W(trays, k, u, v);
    return asked_W > out_W ? out_W : asked_W;
  }
  const in_W = mostIn_W(trays, k, u, v);
  return asked_W < -in_W ? -in_W : asked_W;
}

/** What holds a tray to less than it is asked for. */
export const trayLimits = ['power', 'current', 'bank', 'window'] as const;

export type TrayLimit = (typeof trayLimits)[number];

/** What holds tray k at capacitor voltage u and bus voltage v, giving power or taking it. */
export function trayLimit(trays: TrayRatings, k: Int, u: number, v: number, gives: boolean): TrayLimit {
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
function taper(end: number, u: number, k: Int, trays: TrayRatings): number {
  const c = trays.columns;
  const span = c.taper_ratio[k]! * (c.voltage_high_V[k]! - c.voltage_low_V[k]!);
  const inside = (end === c.voltage_low_V[k]! ? u - end : end - u) / span;
  return inside > 1 ? 1 : inside > 0 ? inside : 0;
}
