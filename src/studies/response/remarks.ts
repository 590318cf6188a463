/** What a response cannot say by itself: what the delay lacks, what is taken as zero, who is at a clamp. */

import { numberText } from '../../analysis/words/number-text.ts';
import { digits } from '../../base/digits.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { Loop } from './loop.ts';

/** Lag that the all-pass for a delay falls short of a pure one and that is worth a word [°]. */
const leastLack_deg = 1;

/**
 * What the voltage loops' margins lack because a delay is a second-order all-pass here, 1 − ax + bx² over 1 + ax + bx² with
 * a = T/2, b = T²/12: at ω it lags 2 arctan(aω/(1 − bω²)) instead of ωT.
 */
export function delayOf(scenario: Scenario, loops: readonly Loop[]): string[] {
  const delay_s = Math.max(
    0,
    ...scenario.shelves.map(({ values }) => (values.loop_period_s > 0 ? 0 : values.control_delay_s)),
  );
  const [loop] = loops.filter(({ name }) => name.startsWith('voltage loop'));
  const at_Hz = loop?.phase_crossover_Hz ?? loop?.crossover_Hz ?? null;
  if (at_Hz === null) return [];
  const x = 2 * Math.PI * at_Hz * delay_s;
  const lack_deg = ((x - 2 * Math.atan2(x / 2, 1 - (x * x) / 12)) * 180) / Math.PI;
  if (!(lack_deg >= leastLack_deg)) return [];
  return [
    `The sensing delay of ${numberText(delay_s, 's')} is a second-order all-pass here: at ${numberText(at_Hz, 'Hz')} a pure delay lags ${lack_deg.toFixed(1)}° more. Take that off the phase margin.`,
  ];
}

export function remarksOf(scenario: Scenario, clamped: readonly string[]): string[] {
  const { share } = scenario.firmware;
  const remarks: string[] = [];
  if (share.dead_band_ratio > 0 || share.trim_quantum_V > 0) {
    remarks.push(
      `Linear: the share loop's dead band of ${digits(100 * share.dead_band_ratio)} % and quantum of ${digits(1e3 * share.trim_quantum_V)} mV are taken as zero. Inside the dead band the loop does not act, so near rest droop alone sets the operating point.`,
    );
  }
  remarks.push(
    'Clamps, slew limits and modes are those of the settled point; prove a choice in time with them on.',
  );
  if (scenario.shelves.some(({ values }) => values.loop_period_s > 0)) {
    remarks.push(
      'Sampled voltage loops: their margins and all modes are those of the sampled laws. In curves each is a hold and a delay at the frequency; its images beyond half its rate are left out. Converters, quanta and jitter are taken as none.',
    );
  }
  if (scenario.controllers.length > 0) {
    remarks.push(
      'Modules of your own are differentiated as they stand: one that rounds answers a small signal with nothing or with a step, and what is said then is no margin.',
    );
  }
  if (clamped.length > 0) {
    remarks.push(`${clamped.join(', ')} are at a clamp at this point: their voltage loops do not act there.`);
  }
  return remarks;
}
