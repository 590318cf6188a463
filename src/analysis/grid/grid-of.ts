/** The AC side in the grid's own words, feeder by feeder, for every reader of the report. */

import type { Span } from '../../events/spans.ts';
import type { Grid, GridFeeder } from '../judge/report.ts';
import { type Case, repeated, worst } from '../record/case.ts';
import { columnOf, type Samples, stretchOf } from '../signal/samples.ts';
import { ofAll } from './cabinets.ts';
import { type FeederPower, feederPowers } from './feeder-power.ts';
import { longTermOf, shortTermOfCycle, shortTerms, tenMinutes_s } from './flicker-of-power.ts';
import { groupsOf } from './groups.ts';
import { amperesPerWatt, lineCurrent } from './line-current.ts';
import { lineVoltages } from './line-voltage.ts';
import { cutMeans, inside, type Means } from './presence.ts';
import { type ChangeReading, changeKept, largestChange, steadyChange } from './voltage-change.ts';

/** The stream holds the envelope up to 300 Hz: side bands of a line of 50 or 60 Hz up to the fifth order. */
const orders = 5;
/** How long a change must be kept to count as one: IEC 61000-3-3, clause 5. */
export const kept_s = 0.5;

export function gridOf(c: Case): Grid {
  const { cabinets_on_feeder_count, coincidence } = c.scenario;
  return {
    cabinets_count: cabinets_on_feeder_count,
    coincidence,
    feeders: feederPowers(c).map((feeder) => feederOf(c, feeder)),
  };
}

/** Fall of the voltage below nominal, of each 10 ms of a stretch. */
interface Fall {
  readonly fall: Float64Array;
  readonly from_s: number;
}

/** As simulated where the feeder gives way; else worked out from the power, of all cabinets. */
function fallsOf(c: Case, feeder: FeederPower, powers: readonly Means[]): Fall[] {
  const { fall_per_W, from_s, meansWidth_s, simulated } = feeder;
  if (simulated !== null)
    return simulated.spans.flatMap((span) => {
      const piece = cutMeans(simulated.voltage, from_s, 1 / meansWidth_s, span);
      return piece.samples.length === 0
        ? []
        : [{ fall: piece.samples.map((v) => 1 - v), from_s: piece.from_s }];
    });
  return powers.map((piece) => {
    const all = columnOf(ofAll(piece.samples, c.scenario));
    return { fall: all.map((power_W) => power_W * fall_per_W), from_s: piece.from_s };
  });
}

/** How far the line lies below nominal on the mean. */
function fallMean(c: Case, feeder: FeederPower): number | null {
  const { voltage, spans, from_s, width_s } = lineVoltages(c).find(({ id }) => id === feeder.id)!;
  const lies = mean(spans.map((span) => cutMeans(voltage, from_s, 1 / width_s, span).samples));
  return lies === null ? null : 1 - lies;
}

function feederOf(c: Case, feeder: FeederPower): GridFeeder {
  const { meansWidth_s: width_s, simulated } = feeder;
  const powers = piecesOf(feeder, feeder.means_W);
  const falls = fallsOf(c, feeder, powers);
  const changes = (
    read: (fall: Float64Array, from_s: number, width_s: number) => ChangeReading | null,
  ): ChangeReading | null => {
    const found = falls.flatMap(({ fall, from_s }) => read(fall, from_s, width_s) ?? []);
    return worst(found, (change) => change.value);
  };
  const mean_W = mean(powers.map(({ samples }) => samples));
  const atVoltage_W =
    simulated === null
      ? mean_W
      : mean(piecesOf(feeder, simulated.perVoltage_W).map(({ samples }) => samples));
  const peak = changes(largestChange);
  const steady = changes(steadyChange);
  const stay = changes((fall, from_s, width) => changeKept(fall, from_s, width, kept_s));
  return {
    feeder: feeder.id,
    line_Hz: feeder.line_Hz,
    short_circuit_power_VA: feeder.short_circuit_power_VA,
    power_mean_W: mean_W,
    current_mean_A: atVoltage_W === null ? null : atVoltage_W * amperesPerWatt(feeder),
    fall_mean_ratio: fallMean(c, feeder),
    change_max_ratio: peak?.value ?? null,
    change_max_s: peak?.time_s ?? null,
    change_steady_ratio: steady?.value ?? null,
    change_steady_s: steady?.time_s ?? null,
    change_kept_ratio: stay?.value ?? null,
    change_kept_s: stay?.time_s ?? null,
    ...flickerOf(c, feeder),
    groups: groupsIn(c, feeder),
  };
}

type Flicker = Pick<GridFeeder, 'pst' | 'pst_of' | 'pst_over_s' | 'plt'>;

/** Of whole ten minutes where there are any, else of the cycle that the load repeats, else none. */
function flickerOf(c: Case, feeder: FeederPower): Flicker {
  const none: Flicker = { pst: null, pst_of: null, pst_over_s: null, plt: null };
  const { stream_W, rate_Hz, line_Hz, fall_per_W, from_s } = feeder;
  if (stream_W === null) return none;
  const measured = feeder.present.map((span) =>
    shortTerms(ofAll(cutSamples(stream_W, from_s, rate_Hz, span), c.scenario), rate_Hz, line_Hz, fall_per_W),
  );
  const shorts = measured.flat();
  if (shorts.length > 0) {
    const plts = measured.flatMap((run) => longTermOf(run) ?? []);
    return {
      pst: Math.max(...shorts),
      pst_of: 'measured',
      pst_over_s: shorts.length * tenMinutes_s,
      plt: plts.length === 0 ? null : Math.max(...plts),
    };
  }
  const cycle = cycleOf(c, feeder);
  if (cycle === null) return none;
  const pst = shortTermOfCycle(ofAll(cycle, c.scenario), rate_Hz, line_Hz, fall_per_W);
  return {
    pst,
    // The cubic mean of twelve like values.
    plt: pst,
    pst_of: 'repeated cycle',
    pst_over_s: cycle.length / rate_Hz,
  };
}

/** The cycle that stands for the load without end; null where there is none. */
function cycleOf(c: Case, feeder: FeederPower): Samples | null {
  const cycle = repeated(c);
  if (cycle === null || feeder.stream_W === null) return null;
  return cutSamples(feeder.stream_W, feeder.from_s, feeder.rate_Hz, cycle.span);
}

function groupsIn(c: Case, feeder: FeederPower): GridFeeder['groups'] {
  const { stream_W, rate_Hz } = feeder;
  if (stream_W === null) return null;
  const spans = c.applies.steady.length > 0 ? c.applies.steady : feeder.present;
  const span = worst(spans, ({ from_s, to_s }) => to_s - from_s);
  if (span === null) return null;
  const samples = cutSamples(stream_W, feeder.from_s, rate_Hz, span);
  return groupsOf(lineCurrent(samples, rate_Hz, feeder), rate_Hz, feeder.line_Hz, orders);
}

/** The means where AC is present, stretch by stretch. */
function piecesOf({ present, from_s, meansWidth_s }: FeederPower, means: Float64Array): Means[] {
  return present.flatMap((span) => {
    const piece = cutMeans(means, from_s, 1 / meansWidth_s, span);
    return piece.samples.length === 0 ? [] : [piece];
  });
}

function cutSamples(samples: Samples, from_s: number, rate_Hz: number, span: Span): Samples {
  const [first, end] = inside(samples.length, from_s, rate_Hz, span);
  return stretchOf(samples, first, end - first);
}

function mean(pieces: readonly Float64Array[]): number | null {
  let sum = 0;
  let count = 0;
  for (const piece of pieces) {
    for (const value of piece) sum += value;
    count += piece.length;
  }
  return count === 0 ? null : sum / count;
}
