/** Closed forms of the flickermeter's response to a sine, and the scale that follows from one point of it. */
import { power } from '../../base/power.ts';
import { highPass_Hz, type Lamp, lowPass_Hz, reference_Hz, smoothing_s } from './lamp.ts';

/** |F(j2πf)| of the weighting filter alone. Every ratio is one of frequencies, so 2π cancels but in k ω1 s. */
export function weightingGain(lamp: Lamp, f_Hz: number): number {
  const { k, lambda_Hz, w1_Hz, w2_Hz, w3_Hz, w4_Hz } = lamp;
  const top = k * w1_Hz * f_Hz * Math.hypot(1, f_Hz / w2_Hz);
  const resonance = Math.hypot(w1_Hz * w1_Hz - f_Hz * f_Hz, 2 * lambda_Hz * f_Hz);
  return top / (resonance * Math.hypot(1, f_Hz / w3_Hz) * Math.hypot(1, f_Hz / w4_Hz));
}

/** |H| of block 3: high-pass, low-pass, weighting. */
export function gainOf(lamp: Lamp, line_Hz: number, f_Hz: number): number {
  const high = f_Hz / Math.hypot(f_Hz, highPass_Hz);
  const low = 1 / Math.sqrt(1 + power(f_Hz / lowPass_Hz(line_Hz), 12));
  return high * low * weightingGain(lamp, f_Hz);
}

/** |G| of block 4 at a frequency. */
function smoothed(f_Hz: number): number {
  return 1 / Math.hypot(1, 2 * Math.PI * f_Hz * smoothing_s);
}

/**
 * S of P_inst = S · smoothed(y²), for a demodulator whose output has mean 1: the 8.8 Hz sine of table 1 then
 * gives P_inst,max = 1, the ripple that the smoothing leaves included.
 */
export function scaleOfLamp(lamp: Lamp, line_Hz: number): number {
  const y = lamp.reference_ratio * gainOf(lamp, line_Hz, reference_Hz);
  return 2 / (y * y * (1 + smoothed(2 * reference_Hz)));
}

/**
 * P_inst,max of sinusoidal modulation of relative change `change_ratio`, peak to peak:
 * S (ΔV/V)² |H(f)|²/2 (1 + |G(2f)|). Exact to second order in ΔV/V.
 */
export function sinePeak(lamp: Lamp, line_Hz: number, f_Hz: number, change_ratio: number): number {
  const y = change_ratio * gainOf(lamp, line_Hz, f_Hz);
  return (scaleOfLamp(lamp, line_Hz) * y * y * (1 + smoothed(2 * f_Hz))) / 2;
}
