/** Rules 3 and 4: what the joules of pulses and of a start ask for. */
import type { Line } from './line.ts';
import { J, kW, s } from './print.ts';
import { type Swing, smoothedRipple_W } from './swing.ts';
import type { TrayFacts } from './tray-facts.ts';

export function energyRules(about: string, swing: Swing, tau_s: number, tray: TrayFacts): readonly Line[] {
  const dP = swing.high_W - swing.low_W;
  if (swing.kind === 'step') {
    const energy = tau_s * dP;
    const trays = energy / tray.usable_J;
    return [
      {
        rule: 4,
        title: 'Start energy',
        about,
        formula: 'E = τ ΔP, over the scheduled window (the charge waits at the right end of it)',
        numbers: `${s(tau_s)} × ${kW(dP)} = ${J(energy)}; ${J(energy)}/${J(tray.usable_J)} = ${trays.toFixed(2)} trays`,
        asks: `${Math.ceil(trays)} trays`,
        trays,
      },
    ];
  }
  const { duty_ratio: D, period_s: T } = swing;
  const flat = dP * D * (1 - D) * T;
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
    },
  ];
}
