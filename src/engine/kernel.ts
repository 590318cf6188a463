/**
 * The kernel: what the engine does at every step. The build compiles these functions and all that they reach to
 * WebAssembly (`scripts/kernel/`); run as they stand they are the plain form, with the same bits.
 */
import type { Int } from '../base/int.ts';
import type { Look } from './look.ts';
import type { Bins } from './meters/bins.ts';
import type { Leaves } from './record/leaves.ts';
import type { Rung } from './rung.ts';
import type { Step } from './step.ts';

/** `Step.take`. */
export function take(step: Step, rung: Rung, h: number, along: number, shortest: boolean): Int {
  return step.take(rung, h, along, shortest);
}

/** `Step.factor`. */
export function factor(step: Step, rung: Rung): void {
  step.factor(rung);
}

/** `Step.accept`. */
export function accept(step: Step): void {
  step.accept();
}

/** `Look.take`. */
export function look(looks: Look, ticks: number, tick1: number, judged: boolean, smoothed_W: number): Int {
  return looks.take(ticks, tick1, judged, smoothed_W);
}

/** `Bins.feed`. */
export function bin(bins: Bins, tick0: number, tick1: number, values: Float64Array): Int {
  return bins.feed(tick0, tick1, values);
}

/** `Leaves.gather`. */
export function gather(leaves: Leaves): void {
  leaves.gather();
}
