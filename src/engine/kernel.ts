/**
 * The kernel: what the engine does at every step. The build compiles these functions and all that they reach to
 * WebAssembly (`scripts/kernel/`); run as they stand they are the plain form, with the same bits.
 */
import type { Int } from '../base/int.ts';
import type { ChargeKeeper } from '../firmware/tray/charge-keeper.ts';
import type { TrayGuard } from '../firmware/tray/tray-guard.ts';
import type { Look } from './look.ts';
import type { Closing } from './record/closing.ts';
import type { Rung } from './rung.ts';
import type { Step } from './step.ts';

/** `TrayGuard.firstAstray`. */
export function astray(guard: TrayGuard, from: Int): Int {
  return guard.firstAstray(from);
}

/** `ChargeKeeper.ask`. */
export function ask(
  charge: ChargeKeeper,
  smoothed_W: number,
  isAssisting: boolean,
  isLost: boolean,
  isStraight: boolean,
): number {
  return charge.ask(smoothed_W, isAssisting, isLost, isStraight);
}

/** `Step.take`. */
export function take(
  step: Step,
  rung: Rung,
  p_s: number,
  q_s: number,
  along: number,
  shortest: boolean,
): Int {
  return step.take(rung, p_s, q_s, along, shortest);
}

/** `Rung.prepare`, and the factor of its matrix. */
export function prepare(step: Step, rung: Rung, q_s: number): void {
  rung.prepare(q_s);
  step.factor(rung);
}

/** `Step.accept`. */
export function accept(step: Step): void {
  step.accept();
}

/** `Look.take`. */
export function look(looks: Look, tick0: number, tick1: number, judged: boolean, smoothed_W: number): Int {
  return looks.take(tick0, tick1, judged, smoothed_W);
}

/** `Closing.close`. */
export function close(closing: Closing, judged: boolean): void {
  closing.close(judged);
}
