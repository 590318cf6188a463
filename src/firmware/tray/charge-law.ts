/**
 * The law that keeps the trays charged, each for itself, beside what it is to carry of the smoothing. Every T_ts:
 *
 *   E*(w)   = clamp(E_mid − (τ_s/N)(w − (P_lo + P_hi)/2), charge_low … charge_high of the window W)
 *   pull    = (E* − E)/τ_soc
 *   P_soc   = clamp(pull + z, ±P_soc,max)                  z ← z + (T_ts/T_i) pull while P_soc is not clamped
 *   P_bal   = W (charge − mean charge)/τ_b                 sums to zero: trays even out without the source seeing it
 *   asked   = smooth − P_soc + P_bal                       given = asked held to what the tray can do at its voltages
 *
 * With that slope N E + τ_s w does not move with the load, so the loop sees only losses and errors. Numbers alone, as it is
 * also translated to C.
 */
import type { Int } from '../../base/int.ts';
import { storedEnergy_J, type TrayRatings } from '../../devices/tray/tray-ratings.ts';
import { onLine } from './smoothing-law.ts';
import { within_W } from './tray-reach.ts';

/** What the charging is tuned to. */
export interface ChargeLaw {
  /** Trays of the group. */
  readonly count: Int;
  /** Of the smoothed source, tau_s [s]. */
  readonly time_constant_s: number;
  /** Middle of the scheduled load, (P_lo + P_hi)/2 [W]. */
  readonly middle_W: number;
  /** Ends of the scheduled charge, over the window. */
  readonly charge_low_ratio: number;
  readonly charge_high_ratio: number;
  /** Of the charge loop, tau_soc [s]. */
  readonly charge_time_s: number;
  /** Clamp of the charge loop [W]. */
  readonly charge_power_limit_W: number;
  /** How much of the pull the integral takes at a run, T_ts/T_i. */
  readonly integral_ratio: number;
  /** With which trays bring their charges together among themselves, tau_b [s]; 0 for none. */
  readonly balance_time_s: number;
}

/** What it remembers from one run to the next. */
export interface ChargeMemory {
  /**
   * Charge integral z of each tray [W].
   * @within charge_power_limit_W
   */
  readonly integral_W: Float64Array;
}

/** What it is told at a run. */
export interface ChargeInput {
  /** Smoothed load w, which the schedule follows [W]. */
  smoothed_W: number;
  /** What each tray is to carry beside its charging [W]. */
  readonly smooth_W: Float64Array;
  /** AC is lost and the trays carry load: their charge is let go. */
  isAssisting: boolean;
  /** The signal has stayed away for too long: trays do not balance. */
  isLost: boolean;
  /** 1 for a tray that is on line. */
  readonly isOnLine: Uint8Array;
  /** Voltage of each tray's capacitor and of the bus at it, as old as the latency [V]. */
  readonly capacitor_V: Float64Array;
  readonly bus_V: Float64Array;
  /** By how much of its window each tray's measured charge is off. */
  readonly shift_ratio: Float64Array;
}

/** What it commands. */
export interface ChargeCommand {
  /** What is asked of each tray [W]. */
  readonly asked_W: Float64Array;
  /** As far as it can [W]: what its converter is told. */
  readonly given_W: Float64Array;
}

/** Energy above an empty bank that tray k should hold [J] when `count` trays share the smoothed load w [W]. */
export function scheduledEnergy_J(law: ChargeLaw, trays: TrayRatings, k: Int, w: number, count: Int): number {
  const low = trays.lowest_J[k]!;
  const window = trays.window_J[k]!;
  const wanted = low + window / 2 - (law.time_constant_s / count) * (w - law.middle_W);
  const least = low + law.charge_low_ratio * window;
  const most = low + law.charge_high_ratio * window;
  return wanted < least ? least : wanted > most ? most : wanted;
}

/** Energy in tray k's capacitor as it measures it, at voltage u [J]. */
export function measuredEnergy_J(trays: TrayRatings, k: Int, u: number, shift_ratio: number): number {
  return storedEnergy_J(trays, k, u) + shift_ratio * trays.window_J[k]!;
}

/** Mean charge of the trays on line, each by its own window. */
function meanCharge(trays: TrayRatings, input: ChargeInput, count: Int): number {
  const { isOnLine, capacitor_V, shift_ratio } = input;
  let held = 0;
  let window = 0;
  for (let k = 0; k < count; k++) {
    if (isOnLine[k] === 0) continue;
    held += measuredEnergy_J(trays, k, capacitor_V[k]!, shift_ratio[k]!) - trays.lowest_J[k]!;
    window += trays.window_J[k]!;
  }
  return held / window;
}

/** What tray k takes to come to its schedule, from what it holds and should hold [W]; z goes on. */
function charging_W(law: ChargeLaw, memory: ChargeMemory, k: Int, pull_W: number): number {
  const limit = law.charge_power_limit_W;
  const charge = pull_W + memory.integral_W[k]!;
  if (charge > limit) return limit;
  if (charge < -limit) return -limit;
  memory.integral_W[k] = memory.integral_W[k]! + law.integral_ratio * pull_W;
  return charge;
}

/** One run: moves the charge integrals of the trays on line and writes what each is asked for and given. */
export function runCharge(
  law: ChargeLaw,
  trays: TrayRatings,
  memory: ChargeMemory,
  input: ChargeInput,
  command: ChargeCommand,
): void {
  const { smoothed_W, isAssisting, isLost } = input;
  chargeTrays(law, trays, memory, input, command, smoothed_W, isAssisting, isLost);
}

/** The same, with what changes from run to run told beside the columns of `input`, for who holds no such numbers. */
export function chargeTrays(
  law: ChargeLaw,
  trays: TrayRatings,
  memory: ChargeMemory,
  input: ChargeInput,
  command: ChargeCommand,
  smoothed_W: number,
  isAssisting: boolean,
  isLost: boolean,
): void {
  const { isOnLine, smooth_W, capacitor_V, bus_V, shift_ratio } = input;
  const { asked_W, given_W } = command;
  const n = onLine(isOnLine, law.count);
  const isBalancing = law.balance_time_s > 0 && !isLost && !isAssisting;
  const mean = isBalancing ? meanCharge(trays, input, law.count) : 0;
  for (let k = 0; k < law.count; k++) {
    if (isOnLine[k] === 0) continue;
    const u = capacitor_V[k]!;
    let asked = smooth_W[k]!;
    if (!isAssisting) {
      const measured = measuredEnergy_J(trays, k, u, shift_ratio[k]!);
      const wanted = scheduledEnergy_J(law, trays, k, smoothed_W, n);
      asked -= charging_W(law, memory, k, (wanted - measured) / law.charge_time_s);
      if (isBalancing)
        asked += (measured - trays.lowest_J[k]! - mean * trays.window_J[k]!) / law.balance_time_s;
    }
    asked_W[k] = asked;
    given_W[k] = within_W(trays, k, asked, u, bus_V[k]!);
  }
}
