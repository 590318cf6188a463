/** How far up the trays smooth, where they make the rectifiers swing more than the load, and what that does to the bus. */

import { numberText } from '../../analysis/words/number-text.ts';
import { digits } from '../../base/digits.ts';
import { power } from '../../base/power.ts';
import type { Scenario } from '../../scenario/scenario.ts';

/** Common practice, no source: smoothing with a fast signal reaches to about here [Hz]. */
const fastReach_Hz = 200;

/** Up to here trays take part; above, the plant alone rings [Hz]. */
const highest_Hz = 1e3;

/** Less is no more than the load [dB]. */
const worth_dB = 0.5;

/** Frequencies ascending; of the rectifiers' current over the load, and of a node's impedance over the same with trays held still. */
export interface Smoothed {
  readonly frequency_Hz: readonly number[];
  readonly gain_dB: readonly number[];
  readonly node: string;
  readonly raised_dB: readonly number[];
}

/** None where there is nothing to smooth with, or nothing smoothed. */
export function smoothingOf(scenario: Scenario, smoothed: Smoothed): string[] {
  const { frequency_Hz, gain_dB } = smoothed;
  if (scenario.trays.length === 0) return [];
  const lowest = gain_dB.indexOf(Math.min(...gain_dB.filter((_, k) => frequency_Hz[k]! < highest_Hz)));
  const from = gain_dB.findIndex((gain, k) => k > lowest && gain >= 0);
  if (from < 1) return [];
  return [reachWords(scenario, frequency_Hz[from - 1]!), ...aboveWords(smoothed, from)];
}

/** The age of a command, latency, half a period of holding, the measuring filter and the trays' own lag, and what 200 Hz takes. */
function reachWords({ firmware: { smoothing }, trays }: Scenario, reach_Hz: number): string {
  const lag_s = trays[0]!.values.power_lag_s;
  const age_s =
    smoothing.latency_s + smoothing.period_s / 2 + 1 / (2 * Math.PI * smoothing.filter_corner_Hz) + lag_s;
  const words = `Smoothing reaches to ${Number(reach_Hz.toPrecision(2))} Hz. A command is ${digits(1e3 * age_s, 2)} ms old (latency, hold, filter, tray lag)`;
  if (reach_Hz >= fastReach_Hz) return `${words}.`;
  const allowed_s = (age_s * reach_Hz) / fastReach_Hz;
  const rest_s = allowed_s - lag_s;
  return `${words}; ${fastReach_Hz} Hz takes about ${digits(1e3 * allowed_s, 2)} ms, so ${rest_s > 0 ? `${digits(1e3 * rest_s, 2)} ms for latency, hold and filter` : 'faster trays too'}.`;
}

/** What late commands add instead of taking away. */
function aboveWords({ frequency_Hz, gain_dB, node, raised_dB }: Smoothed, from: number): string[] {
  const beyond = gain_dB.findIndex((gain, k) => k > from && gain < 0);
  const end = beyond < 0 ? gain_dB.length : beyond;
  const peak = indexOfMost(gain_dB, from, end);
  if (gain_dB[peak]! < worth_dB) return ['Above, the rectifiers follow the load in full.'];
  const swing = `Above, up to ${numberText(frequency_Hz[end - 1]!, 'Hz', 2)}, the rectifiers swing by more than the load, most at ${numberText(frequency_Hz[peak]!, 'Hz')}: ${decibelWords(gain_dB[peak]!)}`;
  const raised = indexOfMost(raised_dB, from, end);
  if (raised_dB[raised]! < worth_dB) return [`${swing}.`];
  return [
    `${swing}; the impedance at ${node} is ${decibelWords(raised_dB[raised]!)} what it is beside trays that hold still, at ${numberText(frequency_Hz[raised]!, 'Hz')}.`,
  ];
}

function indexOfMost(values: readonly number[], from: number, end: number): number {
  let most = from;
  for (let k = from; k < end; k++) if (values[k]! > values[most]!) most = k;
  return most;
}

/** `2.6 times (+8.3 dB)`. */
function decibelWords(value_dB: number): string {
  return `${digits(power(10, value_dB / 20), 2)} times (+${value_dB.toFixed(1)} dB)`;
}
