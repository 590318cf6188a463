/** The engine and the independent integrator side by side on one scenario, and how far they part. */
import { advance } from '../../src/engine/advance.ts';
import { ready } from '../../src/engine/cabinet.ts';
import { firmwareAgenda } from '../../src/engine/firmware-agenda.ts';
import { putEvents } from '../../src/engine/happen/put-events.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble, type Network } from '../../src/network/network.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';
import { Independent } from './independent.ts';

/** A moment as one of the two saw it. */
interface Moment {
  readonly tick: number;
  readonly x: Float64Array;
  readonly v: Float64Array;
}

/** Largest differences over the span, each over the swing of the quantity itself (the worst unit counts). */
export interface Parting {
  readonly nodes: number;
  readonly shelves: number;
  readonly trays: number;
  readonly batteries: number;
  readonly packs: number;
  readonly acPower: number;
  readonly steps: number;
}

/** Quantities that are compared, read from a moment. */
const readings = {
  nodes: (_n: Network, { v }: Moment): ArrayLike<number> => v,
  shelves: (n: Network, { x }: Moment): ArrayLike<number> =>
    x.subarray(n.stages.offset, n.stages.offset + n.shelfCount),
  batteries: (n: Network, { x }: Moment): ArrayLike<number> =>
    x.subarray(n.stages.offset + n.shelfCount, n.stages.offset + n.stages.count),
  packs: ({ packs }: Network, { x }: Moment): ArrayLike<number> =>
    x.subarray(packs.offset, packs.offset + 3 * packs.count),
  trays: ({ trays }: Network, { x, v }: Moment): ArrayLike<number> =>
    Float64Array.from(trays.node, (node, k) => trays.busCurrent_A(k, x[trays.offset + k]!, v[node]!)),
  acPower: ({ intakes }: Network, { x }: Moment): ArrayLike<number> => {
    let sum = 0;
    for (let k = 0; k < intakes.count; k++) {
      const p = x[intakes.offset + 2 * intakes.count + k]!;
      sum += p + intakes.acLoss_W(k, p);
    }
    return [sum];
  },
} as const;

/** The engine's own way through the scenario: every accepted step that ends in (from, to]. */
function engineMoments(
  scenario: Scenario,
  from: number,
  to: number,
  refine: number,
): { readonly moments: Moment[]; readonly steps: number } {
  const cabinet = ready(assemble(scenario), makeDemand(scenario), refine);
  const { stepper } = cabinet;
  const agenda = firmwareAgenda(cabinet, 0);
  putEvents(cabinet, agenda);
  const moments: Moment[] = [];
  advance(cabinet, agenda, 0, to, {
    edge() {},
    step(_tick0, tick) {
      if (tick > from) moments.push({ tick, x: stepper.x1.slice(), v: stepper.v1.slice() });
      return true;
    },
  });
  return { moments, steps: cabinet.steps };
}

/** Largest difference from tick `counted` on, over the swing of all, between the engine's moments and the truth at the same ticks. */
function part(
  network: Network,
  pairs: readonly (readonly [Moment, Moment])[],
  kind: keyof typeof readings,
  counted: number,
) {
  const read = readings[kind];
  const units = read(network, pairs[0]![0]).length;
  let worst = 0;
  for (let k = 0; k < units; k++) {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    let apart = 0;
    for (const [engine, truth] of pairs) {
      const t = read(network, truth)[k]!;
      low = Math.min(low, t);
      high = Math.max(high, t);
      if (engine.tick >= counted) apart = Math.max(apart, Math.abs(read(network, engine)[k]! - t));
    }
    // A unit that stands still (a shelf that has tripped and run out) has no swing to compare with.
    if (high - low > 1e-6) worst = Math.max(worst, apart / (high - low));
  }
  return worst;
}

/** Engine and truth at the same ticks. */
export interface Lockstep {
  /** Largest differences from `counted_s` on, each over the swing of the whole span. */
  after(counted_s: number): Parting;
}

/**
 * Runs both over [0, to] and puts them side by side at the engine's steps within (from, to], at least `apart_s` between
 * two comparisons. `supervised`: the independent one asks the watchers too. Several refinements of the engine stand
 * beside one run of the independent integrator.
 */
export function lockstep(
  scenario: Scenario,
  from_s: number,
  to_s: number,
  refinements: readonly number[] = [1],
  apart_s = 5e-6,
  supervised = true,
): Lockstep[] {
  const ticks = (seconds: number): number => Math.round(seconds / scenario.tick_s);
  const from = ticks(from_s);
  const to = ticks(to_s);
  const runs = refinements.map((refine) => {
    const { moments, steps } = engineMoments(scenario, from, to, refine);
    const kept: Moment[] = [];
    for (const moment of moments) {
      const last = kept.at(-1);
      if (last === undefined || moment.tick - last.tick >= ticks(apart_s)) kept.push(moment);
    }
    return { kept, steps };
  });
  const wanted = [...new Set(runs.flatMap(({ kept }) => kept.map(({ tick }) => tick)))].sort((a, b) => a - b);
  const independent = new Independent(scenario, makeDemand(scenario), supervised);
  const truth = new Map<number, Moment>();
  for (const tick of wanted) {
    independent.reach(tick);
    const { x0, v0 } = independent.cabinet.stepper;
    truth.set(tick, { tick, x: x0.slice(), v: v0.slice() });
  }
  const { network } = independent.cabinet;
  return runs.map(({ kept, steps }) => {
    const pairs = kept.map((moment) => [moment, truth.get(moment.tick)!] as const);
    return {
      after: (counted_s) => {
        const apart = (kind: keyof typeof readings): number => part(network, pairs, kind, ticks(counted_s));
        return {
          nodes: apart('nodes'),
          shelves: apart('shelves'),
          trays: apart('trays'),
          batteries: apart('batteries'),
          packs: apart('packs'),
          acPower: apart('acPower'),
          steps,
        };
      },
    };
  });
}

/** The same with all differences of the span counted, one parting for each refinement. */
export function partings(
  scenario: Scenario,
  from_s: number,
  to_s: number,
  refinements: readonly number[],
  apart_s = 5e-6,
  supervised = false,
): Parting[] {
  return lockstep(scenario, from_s, to_s, refinements, apart_s, supervised).map((side) => side.after(from_s));
}
