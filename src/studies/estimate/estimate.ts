/**
 * The first estimate: thirteen rules that an engineer works through by hand before anything is simulated, one
 * line each with its formula, its numbers and what it asks for. They are start values: rule 14 is the run.
 * Textbook relations and common practice; where a rule leans on a convention without a source it says so.
 */
import type { ReadScenario } from '../../scenario/read.ts';
import { agedEsr, agedHeat, agedRules, coldRules, hotHeat, lifeRule } from './ageing-rules.ts';
import { bankChecks } from './bank-checks.ts';
import { bankRule } from './bank-rule.ts';
import { energyRules } from './energy-rules.ts';
import { boughtTrays, factorRule, latencyRule, spareRules } from './factor-rules.ts';
import type { EstimateLine } from './line.ts';
import { A, J, kW, percent, ratio, s, V, W } from './print.ts';
import { type LoadSwing, smoothedRipple_W, swingOf } from './swing.ts';
import { cold, type TrayFacts, trayFacts } from './tray-facts.ts';

export interface EstimateCase {
  readonly name: string;
  readonly read: ReadScenario;
}

export interface Estimate {
  readonly lines: readonly EstimateLine[];
  /** Trays by the energy of the pulses alone: what a count of joules would buy. */
  readonly energyAlone: number;
  /** Trays by the rule that asks for most, before spares and factors. */
  readonly most: { readonly trays: number; readonly rule: number; readonly title: string } | null;
  /** With factors and one spare. */
  readonly withSpare: number | null;
}

export function estimate(cases: readonly EstimateCase[]): Estimate | null {
  const swings = cases.flatMap(({ name, read }) => {
    const swing = swingOf(read.scenario.load);
    return swing === null ? [] : [{ name, read, swing }];
  });
  const first = swings[0];
  const fresh = first === undefined ? null : trayFacts(first.read, false);
  const old = first === undefined ? null : trayFacts(first.read, true);
  const frozen = first === undefined ? null : trayFacts(first.read, true, cold);
  if (first === undefined || fresh === null || old === null || frozen === null) return null;
  const warmest_degC =
    first.read.notes.get(`trays.${first.read.scenario.trays[0]!.id}.coolant_temperature`)?.high ?? null;
  const lines: EstimateLine[] = [];
  for (const { name, read, swing } of swings) {
    const { smoothing } = read.scenario.firmware;
    const { time_constant_s: tau_s } = smoothing;
    lines.push(loadLine(name, swing), targetLine(name, read, swing, tau_s));
    lines.push(...energyRules(name, swing, smoothing, fresh), powerLine(name, swing, tau_s, fresh));
  }
  lines.push(windowLine(fresh), esrLine(fresh));
  for (const { name, read, swing } of swings) lines.push(heatLine(name, read, swing, fresh));
  lines.push(agedEsr(esrLine(old)));
  for (const { name, read, swing } of swings) {
    const { smoothing } = read.scenario.firmware;
    lines.push(...agedRules(name, swing, smoothing, old), ...coldRules(name, swing, smoothing, frozen));
    if (swing.kind === 'pulses' && warmest_degC !== null) {
      const hot = { ...old, values: { ...old.values, coolant_temperature_degC: warmest_degC } };
      lines.push(hotHeat(heatLine(name, read, swing, hot), warmest_degC));
    }
    if (swing.kind === 'pulses')
      lines.push(
        agedHeat(heatLine(name, read, swing, old)),
        lifeRule(name, read, pulseRms_A(swing, fresh).rms, fresh),
      );
  }
  const asking = lines.filter((line) => line.trays !== null);
  const top = asking.reduce<EstimateLine | null>((a, b) => (a === null || b.trays! > a.trays! ? b : a), null);
  const most = top === null ? null : { trays: Math.ceil(top.trays!), rule: top.rule, title: top.title };
  const bought = boughtTrays(lines);
  lines.push(...spareRules(first.read, top, fresh), factorRule(lines, bought));
  lines.push(...swings.map(({ name, read, swing }) => latencyRule(name, read, swing, fresh)));
  lines.push(bankRule(first.read, first.swing), ...bankChecks(swings));
  lines.push({
    rule: 14,
    title: 'Closing check',
    about: '',
    formula: 'the whole network in time, with clamps, delays and losses',
    numbers: 'the table below',
    asks: 'hand results are start values only',
    trays: null,
  });
  // Where no pulses are, the joules of the start are what a count of energy would go by.
  const joules = lines.some(({ rule }) => rule === 3) ? 3 : 4;
  const energyAlone = Math.max(
    0,
    ...lines.filter(({ rule }) => rule === joules).map(({ trays }) => Math.ceil(trays ?? 0)),
  );
  const ordered = [...lines].sort((a, b) => a.rule - b.rule);
  return { lines: ordered, energyAlone, most, withSpare: bought };
}

function loadLine(about: string, swing: LoadSwing): EstimateLine {
  const { low_W, high_W, edge_s } = swing;
  const pulses = swing.kind === 'pulses';
  return {
    rule: 1,
    title: 'Load',
    about,
    formula: pulses ? 'ΔP = P_hi − P_lo, mean = P_lo + D ΔP' : 'ΔP = P_hi − P_lo',
    numbers: pulses
      ? `${kW(low_W)} to ${kW(high_W)}, T ${s(swing.period_s)}, D ${ratio(swing.duty_ratio)}, edges ${s(edge_s)}: ΔP ${kW(high_W - low_W)}, mean ${kW(low_W + swing.duty_ratio * (high_W - low_W))}`
      : `${kW(low_W)} to ${kW(high_W)} in ${s(edge_s)}: ΔP ${kW(high_W - low_W)}`,
    asks: 'input of the rules below',
    trays: null,
  };
}

/** Smoothing time that ramp and ripple ask for. */
function targetLine(about: string, read: ReadScenario, swing: LoadSwing, tau_s: number): EstimateLine {
  const { limits, rated_W } = read.scenario;
  const dP = swing.high_W - swing.low_W;
  if (swing.kind === 'step') {
    const limit = limits.find(({ quantity }) => quantity === 'ac-ramp-100ms')?.normal ?? null;
    const ramp = dP / tau_s;
    const least = limit === null ? null : dP / (limit * rated_W);
    return {
      rule: 2,
      title: 'Target: ramp',
      about,
      formula: 'a first-order lag starts with ΔP/τ; τ ≥ ΔP/ramp limit',
      numbers: `${kW(dP)}/${s(tau_s)} = ${kW(ramp)}/s${limit === null ? '' : ` against ${kW(limit * rated_W)}/s`}`,
      asks: least === null ? 'no ramp limit' : `τ at least ${s(least)}; the firmware has ${s(tau_s)}`,
      trays: null,
    };
  }
  const f = 1 / swing.period_s;
  const limit = limits.find(
    ({ quantity, band_Hz }) =>
      quantity === 'ac-band-ripple' && band_Hz !== null && band_Hz[0] <= f && f < band_Hz[1],
  );
  const ripple = smoothedRipple_W(swing, tau_s);
  const mean = swing.low_W + swing.duty_ratio * dP;
  const bound = limit?.normal ?? null;
  return {
    rule: 2,
    title: 'Target: ripple',
    about,
    formula: 'ΔP_src = ΔP (1 − a)(1 − b)/(1 − ab), a = e^(−DT/τ), b = e^(−(1−D)T/τ)',
    numbers: `τ ${s(tau_s)}: ${kW(ripple)} peak to peak, ${percent(ripple / mean)} of the mean${bound === null ? '' : ` against ${percent(bound)} (${limit?.id})`}`,
    asks:
      bound === null
        ? 'no limit at this frequency'
        : ripple / mean <= bound
          ? 'τ as it is'
          : 'a longer τ, and trays to match',
    trays: null,
  };
}

function powerLine(about: string, swing: LoadSwing, tau_s: number, tray: TrayFacts): EstimateLine {
  const dP = swing.high_W - swing.low_W;
  if (swing.kind === 'step') {
    const trays = dP / tray.power_W;
    return {
      rule: 5,
      title: 'Start power',
      about,
      formula: 'the source cannot move at once: N = ΔP/P_tray',
      numbers: `${kW(dP)}/${kW(tray.power_W)} = ${trays.toFixed(2)} trays`,
      asks: `${Math.ceil(trays)} trays, or the source sees the rest as a raw step`,
      trays,
      safety: 'power',
    };
  }
  const mean = swing.low_W + swing.duty_ratio * dP;
  const ripple = smoothedRipple_W(swing, tau_s);
  const out = swing.high_W - (mean - ripple / 2);
  const into = mean + ripple / 2 - swing.low_W;
  const trays = Math.max(out, into) / tray.power_W;
  return {
    rule: 5,
    title: 'Pulse power',
    about,
    formula: 'out: P_hi − P_src,min; in: P_src,max − P_lo; N = the larger/P_tray',
    numbers: `out ${kW(out)}, in ${kW(into)}; ${kW(Math.max(out, into))}/${kW(tray.power_W)} = ${trays.toFixed(2)} trays`,
    asks: `${Math.ceil(trays)} trays in the converged cycle${into > out ? '; charging requires more, as D is above one half' : ''}`,
    trays,
    safety: 'power',
  };
}

function windowLine(tray: TrayFacts): EstimateLine {
  const { low_V, high_V, fullPower_V, feasible_V, capacitance_F: C } = tray;
  return {
    rule: 6,
    title: 'Voltage window',
    about: '',
    formula: 'E = C/2 (V_max² − V_min²); full power above P_cap/I_cap + R I_cap; feasible above 2 √(R P_cap)',
    numbers: `${C} F from ${V(low_V)} to ${V(high_V)}: ${J(tray.window_J)}, ${J(tray.usable_J)} of it scheduled; full power above ${V(fullPower_V)}, feasible above ${V(feasible_V)}`,
    asks:
      fullPower_V <= low_V
        ? 'full power over the whole window'
        : `full power over ${percent(((C / 2) * (high_V ** 2 - fullPower_V ** 2)) / tray.window_J)} of the window`,
    trays: null,
  };
}

function esrLine(tray: TrayFacts): EstimateLine {
  const i = tray.power_W / tray.values.efficiency_ratio / ((tray.low_V + tray.high_V) / 2);
  return {
    rule: 7,
    title: 'ESR step',
    about: '',
    formula: 'ΔV = R i, loss i² R, at full power in the middle of the window',
    numbers: `${A(i)} through ${(1000 * tray.esr_ohm).toFixed(2)} mΩ: ${V(tray.esr_ohm * i)}, ${W(tray.esr_ohm * i * i)}`,
    asks: `${percent((tray.esr_ohm * i) / (tray.high_V - tray.low_V))} of the window goes to the step`,
    trays: null,
  };
}

/** RMS current of all trays together under the pulses, at the middle of the voltage window [A]. */
export function pulseRms_A(
  swing: Extract<LoadSwing, { kind: 'pulses' }>,
  tray: TrayFacts,
): { out: number; into: number; rms: number } {
  const D = swing.duty_ratio;
  const mean = swing.low_W + D * (swing.high_W - swing.low_W);
  const v = (tray.low_V + tray.high_V) / 2;
  const eta = tray.values.efficiency_ratio;
  const [out, into] = [(swing.high_W - mean) / eta / v, ((mean - swing.low_W) * eta) / v];
  return { out, into, rms: Math.sqrt(D * out ** 2 + (1 - D) * into ** 2) };
}

/** Trays by RMS current and by the hot spot, when they share the pulses evenly. */
function heatLine(about: string, read: ReadScenario, swing: LoadSwing, tray: TrayFacts): EstimateLine {
  const formula = 'I = √(D I_d² + (1 − D) I_c²), N ≥ I/rating; T = T_c + (I/N)² R R_th';
  const base = { rule: 8, title: 'RMS heating', about, formula };
  if (swing.kind === 'step') {
    return {
      ...base,
      numbers: 'one start in many minutes',
      asks: 'nothing: heat follows the pulses',
      trays: null,
    };
  }
  const { out, into, rms } = pulseRms_A(swing, tray);
  const rating = tray.values.capacitor_current_rms_rating_A;
  const { thermal_resistance_K_per_W: Rth, coolant_temperature_degC: coolant } = tray.values;
  const fitted = read.scenario.trays.length;
  const hot = coolant + (rms / fitted) ** 2 * tray.esr_ohm * Rth;
  const row = read.scenario.limits.find(({ quantity }) => quantity === 'tray-hot-spot')?.normal ?? null;
  const byHeat = row === null || Rth === 0 ? 0 : rms * Math.sqrt((tray.esr_ohm * Rth) / (row - coolant));
  const trays = Math.max(rms / rating, byHeat);
  const heat =
    Rth === 0
      ? 'the model states no thermal resistance, so its RMS rating is used instead of the hot spot'
      : `with ${fitted} fitted the hot spot is ${hot.toFixed(1)} °C${row === null ? '' : ` against ${row} °C, which requires ${byHeat.toFixed(2)}`}`;
  return {
    ...base,
    numbers: `out ${A(out)}, in ${A(into)} over all trays: RMS ${A(rms)}; ${A(rms)}/${A(rating)} = ${(rms / rating).toFixed(2)} trays; ${heat}`,
    asks: `${Math.ceil(trays)} trays`,
    trays,
    safety: 'rms',
  };
}
