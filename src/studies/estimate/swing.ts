/** What a load asks of storage, in the few numbers that hand rules use. */
import type { LoadSpec } from '../../scenario/scenario.ts';

export type LoadSwing =
  | {
      readonly kind: 'pulses';
      readonly low_W: number;
      readonly high_W: number;
      readonly period_s: number;
      readonly duty_ratio: number;
      readonly edge_s: number;
    }
  | { readonly kind: 'step'; readonly low_W: number; readonly high_W: number; readonly edge_s: number };

/** Null for a load without a swing, and for a recording, which has no duty to reckon with. */
export function swingOf(load: LoadSpec): LoadSwing | null {
  if (load.kind === 'pulse-train' && load.high_W > load.low_W) {
    const { low_W, high_W, period_s, duty_ratio, edge_s } = load;
    return { kind: 'pulses', low_W, high_W, period_s, duty_ratio, edge_s };
  }
  if (load.kind === 'step' && load.before_W !== load.after_W) {
    const [low_W, high_W] = [Math.min(load.before_W, load.after_W), Math.max(load.before_W, load.after_W)];
    return { kind: 'step', low_W, high_W, edge_s: load.edge_s };
  }
  return null;
}

/**
 * Peak to peak of a two-level pulse train behind a first-order lag [W], exact in the periodic state:
 * ΔP (1 − a)(1 − b)/(1 − ab), a = e^(−DT/τ), b = e^(−(1−D)T/τ).
 */
export function smoothedRipple_W(swing: Extract<LoadSwing, { kind: 'pulses' }>, tau_s: number): number {
  const { duty_ratio: D, period_s: T } = swing;
  const a = Math.exp((-D * T) / tau_s);
  const b = Math.exp((-(1 - D) * T) / tau_s);
  return ((swing.high_W - swing.low_W) * (1 - a) * (1 - b)) / (1 - a * b);
}
