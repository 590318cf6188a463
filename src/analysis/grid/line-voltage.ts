/**
 * The line voltage at the shelves of each feeder, in 10 ms means: as simulated where the feeder gives way, else worked out
 * from the means of the power, for a supply whose whole impedance would lie before the shelves (`line-under-load.ts`).
 * Without what is not the load's doing: times when an event sets the line voltage, AC lost, walk-in.
 */
import { largestPower, middleOfRoots, upperRoot } from '../../devices/supply/line-under-load.ts';
import type { Span } from '../../events/spans.ts';
import { impedanceOf } from '../../scenario/derived/supply-impedance.ts';
import type { ShelfValues } from '../../scenario/parameters/shelf.ts';
import type { Case } from '../record/case.ts';
import { columnOf } from '../signal/samples.ts';
import { ofAll } from './cabinets.ts';
import { type FeederPower, feederPowers } from './feeder-power.ts';
import { undisturbed } from './presence.ts';

/** The line under one power. */
export interface LineUnderLoad {
  /** V over nominal. */
  readonly voltage_ratio: number;
  /** Power over the most that the supply carries at this power factor. */
  readonly loading_ratio: number;
}

export interface LineVoltage {
  readonly id: string;
  readonly simulated: boolean;
  /** V over nominal, and power over the most that the supply carries, of each 10 ms. */
  readonly voltage: Float64Array;
  readonly loading: Float64Array;
  readonly from_s: number;
  readonly width_s: number;
  readonly spans: readonly Span[];
  /** With all shelves of all cabinets at their power limits. */
  readonly fullest: LineUnderLoad;
}

/** Every feeder that carries shelves. */
export function lineVoltages(c: Case): LineVoltage[] {
  return feederPowers(c).map((feeder) => lineVoltageOf(c, feeder));
}

export function lineVoltageOf(c: Case, feeder: FeederPower): LineVoltage {
  const { id, means_W, meansWidth_s: width_s, from_s } = feeder;
  const count = c.scenario.cabinets_on_feeder_count;
  const simulated = feeder.simulated !== null;
  const line = lineOf(c, feeder, simulated);
  // Simulated cabinets move together; else as the scenario has them fall together.
  const all = simulated ? means_W.map((p) => count * p) : columnOf(ofAll(means_W, c.scenario));
  const under = Array.from(all, line);
  return {
    id,
    simulated,
    voltage: feeder.simulated?.voltage ?? Float64Array.from(under, ({ voltage_ratio }) => voltage_ratio),
    loading: Float64Array.from(under, ({ loading_ratio }) => loading_ratio),
    from_s,
    width_s,
    spans: feeder.simulated?.spans ?? undisturbed(c, id),
    fullest: line(count * fullest_W(c, id)),
  };
}

/** The line under a power, all of the supply's impedance before it or as much as was simulated. */
function lineOf(c: Case, feeder: FeederPower, simulated: boolean): (power_W: number) => LineUnderLoad {
  const { values } = c.scenario.feeders.find(({ id }) => id === feeder.id)!;
  const {
    resistance_ohm: R,
    reactance_ohm: X,
    impedance_ohm: Z,
  } = impedanceOf(values, simulated ? values.gives_way_ratio : 1);
  const E = values.line_voltage_V;
  const count = c.scenario.cabinets_on_feeder_count;
  return (P) => {
    const t = feeder.current.tangent(P / count);
    return {
      voltage_ratio: upperRoot(middleOfRoots(E, R, X, P, P * t), Z * P * Math.sqrt(1 + t * t)) / E,
      loading_ratio: P / largestPower(E, R, X, t),
    };
  };
}

/** What all shelves of one cabinet on a feeder take at their power limits [W]. */
function fullest_W({ scenario }: Case, feeder: string): number {
  return scenario.shelves
    .filter((shelf) => shelf.feeder === feeder)
    .reduce((sum, { values }) => sum + taken_W(values), 0);
}

function taken_W(shelf: ShelfValues): number {
  const p = shelf.power_limit_ratio * shelf.module_count_count * shelf.module_power_W;
  return p + shelf.ac_loss_fixed_W + (shelf.ac_loss_linear_ratio + shelf.ac_loss_square_per_W * p) * p;
}
