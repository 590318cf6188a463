/** Rules 3 and 4: what the joules of pulses and of a start ask for. */
import type { SmoothingValues } from '../../scenario/parameters/smoothing.ts';
import type { EstimateLine } from './line.ts';
import { J, kW, kWs, s } from './print.ts';
import { type LoadSwing, smoothedRipple_W } from './swing.ts';
import type { TrayFacts } from './tray-facts.ts';

/** Into and out of a buffer that holds the source of a two-level load still: E = ΔP D (1 − D) T [J]. */
export function flatSwing_J({
  low_W,
  high_W,
  period_s,
  duty_ratio,
}: Omit<Extract<LoadSwing, { kind: 'pulses' }>, 'kind'>): number {
  return (high_W - low_W) * duty_ratio * (1 - duty_ratio) * period_s;
}

export function energyRules(
  about: string,
  swing: LoadSwing,
  smoothing: SmoothingValues,
  tray: TrayFacts,
): readonly EstimateLine[] {
  const dP = swing.high_W - swing.low_W;
  const tau_s = smoothing.time_constant_s;
  if (swing.kind === 'step') {
    const R = smoothing.source_ramp_W_per_s;
    const [lag, ramp] = [tau_s * dP, dP ** 2 / (2 * R)];
    const ramped = smoothing.reference === 'source-ramp';
    const energy = ramped ? ramp : lag;
    const trays = energy / tray.usable_J;
    const [byLag, byRamp] = [`${s(tau_s)} × ${kW(dP)} = ${J(lag)}`, `at ${kWs(R)} ${J(ramp)}`];
    return [
      {
        rule: 4,
        title: 'Start energy',
        about,
        formula:
          'behind the lag E = τ ΔP, behind a ramp ΔP²/(2 R); over the scheduled window (the charge waits at the right end of it), over half of it from the middle',
        numbers: `${ramped ? `${byRamp} (behind the lag ${J(lag)})` : `${byLag} (as a ramp ${byRamp})`}; ${J(energy)}/${J(tray.usable_J)} = ${trays.toFixed(2)} trays, from the middle ${(2 * trays).toFixed(2)}`,
        asks: `${Math.ceil(trays)} trays`,
        trays,
        safety: 'energy',
      },
    ];
  }
  const flat = flatSwing_J(swing);
  const smoothed = tau_s * smoothedRipple_W(swing, tau_s);
  const trays = flat / tray.usable_J;
  return [
    {
      rule: 3,
      title: 'Cycle energy',
      about,
      formula: 'wholly flat: E = ΔP D (1 − D) T; behind the lag: E_pp = τ ΔP_src',
      numbers: `${J(flat)} flat, ${J(smoothed)} behind τ ${s(tau_s)}; ${J(flat)}/${J(tray.usable_J)} = ${trays.toFixed(2)} trays`,
      asks: `${Math.ceil(trays)} ${Math.ceil(trays) === 1 ? 'tray' : 'trays'}: energy alone`,
      trays,
      safety: 'energy',
    },
  ];
}
