/** The AC power of one feeder: its 10 ms means, and a stream fast enough for flicker and spectra. */

import type { Result } from '../../engine/result.ts';
import type { Span } from '../../events/spans.ts';
import { type Case, type Ran, streamOf } from '../record/case.ts';
import { once } from '../record/once.ts';
import { meanOf } from '../signal/detrend.ts';
import { type Samples, through } from '../signal/samples.ts';
import { undisturbed, withoutLost } from './presence.ts';
import { type ShelfCurrent, shelfCurrent } from './shelf-current.ts';
import { fallPerWatt } from './supply.ts';

export interface SimulatedLine {
  /** V over nominal, and the power over that, of each 10 ms. */
  readonly voltage: Float64Array;
  readonly perVoltage_W: Float64Array;
  /** Where no event sets the line voltage either. */
  readonly spans: readonly Span[];
}

export interface FeederPower {
  readonly id: string;
  readonly line_Hz: number;
  readonly line_voltage_V: number;
  readonly short_circuit_power_VA: number;
  /** At the mean power. */
  readonly power_factor_ratio: number;
  readonly current: ShelfCurrent;
  /** Relative fall of the voltage per watt. */
  readonly fall_per_W: number;
  /** 10 ms means: about a half cycle, the standard's shortest value of a voltage. */
  readonly means_W: Float64Array;
  readonly meansWidth_s: number;
  /** The cabinet's stream times this feeder's part of its means; null where no stream was kept. */
  readonly stream_W: Samples | null;
  readonly rate_Hz: number;
  readonly from_s: number;
  /** Where AC is present and shelves do not walk in. */
  readonly present: readonly Span[];
  /** The line of a feeder that gives way; null where the run had a stiff one. */
  readonly simulated: SimulatedLine | null;
}

/** What of a feeder's power does not depend on where limits apply. */
export type RunFeeder = Omit<FeederPower, 'present' | 'simulated'> & {
  readonly simulated: Omit<SimulatedLine, 'spans'> | null;
};

/** Every feeder that carries shelves. */
export const feederPowers: (c: Case) => readonly FeederPower[] = once((c) => {
  const present = withoutLost(c);
  return runFeeders(c.ran).map(({ simulated, ...feeder }) => ({
    ...feeder,
    present,
    simulated: simulated === null ? null : { ...simulated, spans: undisturbed(c, feeder.id) },
  }));
});

export const runFeeders: (ran: Ran) => readonly RunFeeder[] = once(({ scenario, result }) => {
  const { columns, from_s, width_s } = result.means;
  const total = columns.get('total.ac_power_W');
  const stream = streamOf(result, 'total.ac_power_W');
  return scenario.feeders.flatMap((feeder) => {
    const means_W = columns.get(`${feeder.id}.ac_power_W`);
    const shelves = scenario.shelves.filter((shelf) => shelf.feeder === feeder.id);
    if (means_W === undefined || means_W.length === 0 || shelves.length === 0) return [];
    const current = shelfCurrent(scenario, feeder.id);
    const mean_W = meanOf(means_W);
    const power_factor_ratio = current.powerFactor(mean_W);
    const { frequency_Hz, line_voltage_V, short_circuit_power_VA } = feeder.values;
    const stream_W =
      stream === null || total === undefined
        ? null
        : shareOf(stream.samples, Math.round(stream.rate_Hz * width_s), means_W, total);
    return [
      {
        id: feeder.id,
        line_Hz: frequency_Hz,
        line_voltage_V,
        short_circuit_power_VA,
        power_factor_ratio,
        fall_per_W: fallPerWatt(
          { short_circuit_power_VA, reactance_ratio: feeder.values.reactance_ratio_ratio },
          current.tangent(mean_W),
        ),
        means_W,
        meansWidth_s: width_s,
        stream_W,
        rate_Hz: stream?.rate_Hz ?? Number.NaN,
        from_s,
        current,
        simulated: simulatedLine(result, feeder.id, line_voltage_V, means_W),
      },
    ];
  });
});

function simulatedLine(
  { means }: Result,
  id: string,
  nominal_V: number,
  means_W: Float64Array,
): RunFeeder['simulated'] {
  const line_V = means.columns.get(`${id}.line_voltage_V`);
  if (line_V === undefined) return null;
  const voltage = line_V.map((v) => v / nominal_V);
  return { voltage, perVoltage_W: means_W.map((p, j) => p / voltage[j]!) };
}

/** Only the cabinet's sum is kept fast; a feeder takes the part of it that it has in each 10 ms. */
function shareOf(samples: Samples, perMean: number, means: Float64Array, total: Float64Array): Samples {
  const last = Math.min(means.length, total.length) - 1;
  const shares = means.map((mean, j) => (total[j]! > 0 ? mean / total[j]! : 0));
  return through(samples, (stretch, first) => weigh(stretch, first, shares.subarray(0, last + 1), perMean));
}

/** Multiplies samples, the first of them number `first`, by the share of the mean that each lies in; the last share goes on. */
function weigh(samples: Float64Array, first: number, shares: Float64Array, perMean: number): void {
  for (let j = 0; j < samples.length; ) {
    const at = Math.floor((first + j) / perMean);
    const share = shares[Math.min(shares.length - 1, at)]!;
    const end = Math.min(samples.length, (at + 1) * perMean - first);
    for (; j < end; j++) samples[j]! *= share;
  }
}
