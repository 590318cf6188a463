/**
 * The line voltage at the shelves of each feeder, in 10 ms means: as simulated where the feeder gives way, else worked out
 * from the means of the power, for a supply whose whole impedance would lie before the shelves (`line-under-load.ts`).
 * Without what is not the load's doing: times when an event sets the line voltage, AC lost, walk-in.
 */
import { largestPower, middleOfRoots, upperRoot } from '../../devices/supply/line-under-load.ts';
import type { Span } from '../../events/spans.ts';
import { impedanceOf } from '../../scenario/derived/supply-impedance.ts';
import type { ShelfValues } from '../../scenario/parameters/shelf.ts';
import type { Case, Ran } from '../record/case.ts';
import { once } from '../record/once.ts';
import type { Stated } from '../record/stated.ts';
import { columnOf } from '../signal/samples.ts';
import { ofAll } from './cabinets.ts';
import { feederPowers, type RunFeeder, runFeeders } from './feeder-power.ts';
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
  /** V over nominal of each 10 ms, and the power of all cabinets then [W]. */
  readonly voltage: Float64Array;
  readonly power_W: Float64Array;
  readonly before: LineBefore;
  readonly from_s: number;
  readonly width_s: number;
  readonly spans: readonly Span[];
  /** With all shelves of all cabinets at their power limits. */
  readonly fullest: LineUnderLoad;
}

/** Every feeder that carries shelves. */
export const lineVoltages: (c: Case) => readonly LineVoltage[] = once((c) =>
  feederPowers(c).map((feeder) => {
    const { id, simulated, from_s, meansWidth_s: width_s } = feeder;
    return {
      ...runLines(c.ran).get(id)!,
      id,
      simulated: simulated !== null,
      from_s,
      width_s,
      spans: simulated?.spans ?? undisturbed(c, id),
    };
  }),
);

type RunLine = Pick<LineVoltage, 'voltage' | 'power_W' | 'before' | 'fullest'>;

/** What of it does not depend on where limits apply, feeder by feeder. */
const runLines = once((ran: Ran): ReadonlyMap<string, RunLine> => {
  return new Map(runFeeders(ran).map((feeder) => [feeder.id, runLine(ran, feeder)]));
});

function runLine({ scenario }: Ran, feeder: RunFeeder): RunLine {
  const { means_W } = feeder;
  const count = scenario.cabinets_on_feeder_count;
  const before = new LineBefore(scenario, feeder);
  // Simulated cabinets move together; else as the scenario has them fall together.
  const power_W =
    feeder.simulated === null ? columnOf(ofAll(means_W, scenario)) : means_W.map((p) => count * p);
  return {
    voltage: feeder.simulated?.voltage ?? before.voltages(power_W),
    power_W,
    before,
    fullest: atPower(before, count * fullest_W(scenario, feeder.id)),
  };
}

function atPower(before: LineBefore, power_W: number): LineUnderLoad {
  return { voltage_ratio: before.voltage_ratio(power_W), loading_ratio: before.loading_ratio(power_W) };
}

/** A feeder's line under a power [W]: behind all of the supply's impedance, or as much as was simulated. */
export class LineBefore {
  private readonly E: number;
  private readonly R: number;
  private readonly X: number;
  private readonly Z: number;
  private readonly current: RunFeeder['current'];
  private readonly count: number;

  constructor(scenario: Stated, { id, current, simulated }: RunFeeder) {
    const { values } = scenario.feeders.find((feeder) => feeder.id === id)!;
    const behind = impedanceOf(values, simulated === null ? 1 : values.gives_way_ratio);
    this.E = values.line_voltage_V;
    this.R = behind.resistance_ohm;
    this.X = behind.reactance_ohm;
    this.Z = behind.impedance_ohm;
    this.current = current;
    this.count = scenario.cabinets_on_feeder_count;
  }

  voltage_ratio(P: number): number {
    const { E, R, X, Z } = this;
    const t = this.current.tangent(P / this.count);
    return upperRoot(middleOfRoots(E, R, X, P, P * t), Z * P * Math.sqrt(1 + t * t)) / E;
  }

  voltages(power_W: Float64Array): Float64Array {
    const out = new Float64Array(power_W.length);
    for (let j = 0; j < out.length; j++) out[j] = this.voltage_ratio(power_W[j]!);
    return out;
  }

  /** Place of the largest loading; −1 of none. */
  mostLoaded(power_W: Float64Array): number {
    let [top, most] = [-1, Number.NEGATIVE_INFINITY];
    for (let j = 0; j < power_W.length; j++) {
      const loading = this.loading_ratio(power_W[j]!);
      if (top < 0 || loading > most) [top, most] = [j, loading];
    }
    return top;
  }

  loading_ratio(P: number): number {
    const { E, R, X } = this;
    return P / largestPower(E, R, X, this.current.tangent(P / this.count));
  }
}

/** What all shelves of one cabinet on a feeder take at their power limits [W]. */
function fullest_W({ shelves }: Stated, feeder: string): number {
  return shelves
    .filter((shelf) => shelf.feeder === feeder)
    .reduce((sum, { values }) => sum + taken_W(values), 0);
}

function taken_W(shelf: ShelfValues): number {
  const p = shelf.power_limit_ratio * shelf.module_count_count * shelf.module_power_W;
  return p + shelf.ac_loss_fixed_W + (shelf.ac_loss_linear_ratio + shelf.ac_loss_square_per_W * p) * p;
}
