/**
 * One point of a gains map: whether the cabinet is stable there, how well damped, how far from the edge, how
 * fast and how true the shelves share. Only the modes that decide are computed: all of the plant, the largest
 * of the period map, the largest of the fast tasks' own map.
 */

import { ready } from '../../engine/cabinet.ts';
import { largestEigenvalues } from '../../linear/arnoldi.ts';
import { type Block, blocksOf, restrict } from '../../linear/blocks.ts';
import { type Complex, logarithm, magnitude } from '../../linear/complex.ts';
import { Hessenberg } from '../../linear/hessenberg.ts';
import { hyperPeriod, PeriodMap, Stretches, wholePeriod } from '../../linear/period-map.ts';
import { restAt } from '../../linear/rest.ts';
import { linearise, type Sampled } from '../../linear/sampled.ts';
import { makeDemand } from '../../loads/make-demand.ts';
import { assemble } from '../../network/network.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { type ShareStep, shareStep } from './share-step.ts';

export interface Cell extends ShareStep {
  readonly stable: boolean;
  /** Largest real part of any mode, and the frequency of that mode. */
  readonly growth_per_s: number | null;
  readonly growth_Hz: number | null;
  /** Least damping of a mode below 1 kHz, and from 1 to 10 kHz, with their frequencies. */
  readonly damping_ratio: number | null;
  readonly damping_Hz: number | null;
  readonly damping_fast_ratio: number | null;
  readonly damping_fast_Hz: number | null;
  /** Largest deviation of a shelf from the mean at rest, dead band on, over rated. */
  readonly steady_error_ratio: number | null;
  /** Why there are no numbers: no operating point, no common multiple of the periods. */
  readonly reason: string | null;
}

/** Basis sizes of the two maps: what decides is found long before. */
const depth = { whole: 48, fast: 90 } as const;

/** Plant modes gone by exp(−this) within a hyper-period are those of the plant alone. */
const gone = 12;

/** Eigenvalues below this are not settled in a basis of that size. */
const settledFrom = { whole: 0.35, fast: 0.3 } as const;

/** Keeps what neighbouring cells have in common: a plant that did not change is not multiplied out again. */
export class CellWorkshop {
  private A: Float64Array = new Float64Array(0);
  private B: readonly Float64Array[] = [];
  private stretches: Stretches | null = null;
  private modes: Complex[] = [];
  reused = 0;

  cell(scenario: Scenario, load_W: number): Cell {
    const cabinet = restAt(scenario, load_W);
    const system = linearise(cabinet);
    const blocks = blocksOf(system);
    const main = largestSampled(blocks);
    const aside = blocks
      .filter((block) => block !== main && !block.isSampled)
      .flatMap((block) => plantModes(system, block));
    if (main === null)
      return { ...verdictOf(aside), ...nothing, steady_error_ratio: steadyError(scenario, load_W) };
    const part = restrict(system, main);
    const { stretches, modes } = this.plantOf(part);
    // Without a common multiple the cell has that for its reason.
    const ticks = wholePeriod(part);
    const shortest = Math.min(...part.tasks.map(({ period }) => period));
    // Slower than that, the firmware has its hand on them: the maps tell.
    const own_rad_per_s = Math.PI / (shortest * part.tick_s);
    const all: Complex[] = [
      ...aside,
      ...modes.filter(
        ({ re, im }) => re >= 50 || re * ticks * part.tick_s < -gone || Math.abs(im) > own_rad_per_s,
      ),
    ];
    let step: ShareStep = nothing;
    // A plant that runs away on its own needs no map; its powers would overflow.
    if (modes.every(({ re }) => re < 50)) {
      const map = new PeriodMap(part, ticks, stretches);
      all.push(...rates(map, depth.whole, settledFrom.whole));
      const fast = part.tasks.filter(({ period }) => 5 * shortest >= period);
      if (fast.length < part.tasks.length) {
        const own = { ...part, tasks: fast };
        const ownMap = new PeriodMap(own, hyperPeriod(own)!, stretches);
        const found = rates(ownMap, depth.fast, settledFrom.fast, standing(part, fast));
        all.push(...withoutAliases(found, modes, ownMap.period_s));
      }
      if (all.every(({ re }) => re < 0)) step = shareStep(map);
    }
    return { ...verdictOf(all), ...step, steady_error_ratio: steadyError(scenario, load_W) };
  }

  private plantOf(part: Sampled): { stretches: Stretches; modes: Complex[] } {
    const { plant, commandColumns, tick_s, rungTicks } = part;
    const same =
      this.stretches !== null &&
      alike(this.A, plant.A) &&
      commandColumns.every((b, k) => alike(this.B[k]!, b));
    if (same) this.reused++;
    else {
      this.A = plant.A;
      this.B = commandColumns;
      this.stretches = new Stretches(plant.A, commandColumns, plant.n, tick_s, rungTicks);
      this.modes = new Hessenberg(plant.A, plant.n, false).eigenvalues();
    }
    return { stretches: this.stretches!, modes: this.modes };
  }
}

const nothing: ShareStep = {
  settling_s: null,
  overshoot_ratio: null,
  clearance_ratio: null,
  leaves_ratio: null,
};

/** A cell without numbers, and why. */
export function empty(reason: string): Cell {
  return {
    stable: false,
    growth_per_s: null,
    growth_Hz: null,
    damping_ratio: null,
    damping_Hz: null,
    damping_fast_ratio: null,
    damping_fast_Hz: null,
    ...nothing,
    steady_error_ratio: null,
    reason,
  };
}

function alike(a: Float64Array | undefined, b: Float64Array): boolean {
  return a !== undefined && a.length === b.length && a.every((x, k) => x === b[k]);
}

function largestSampled(blocks: readonly Block[]): Block | null {
  let best: Block | null = null;
  for (const block of blocks) {
    if (block.isSampled && (best === null || block.places.length > best.places.length)) best = block;
  }
  return best;
}

function plantModes(system: Sampled, block: Block): Complex[] {
  const { plant } = restrict(system, block);
  return new Hessenberg(plant.A, plant.n, false).eigenvalues();
}

/**
 * Loops slower than this are left to the full analysis: the trays' charge loops all but coincide, and a short
 * basis cannot part them [rad/s].
 */
const slowest_rad_per_s = 0.3;

/** Eigenvalues of a period map as rates, s = ln(z)/T; what has not settled in the basis is left out. */
function rates(map: PeriodMap, most: number, least: number, still: readonly number[] = []): Complex[] {
  const { size } = map.system;
  const carry = (z: Float64Array): void => {
    map.carry(z);
    for (const k of still) z[k] = 0;
  };
  return largestEigenvalues(carry, size, most, least)
    .map((z) => {
      const log = logarithm(z);
      // An alternating value says how fast it dies and nothing of a frequency.
      return { re: log.re / map.period_s, im: z.im === 0 ? 0 : log.im / map.period_s };
    })
    .filter((s) => magnitude(s) > slowest_rad_per_s);
}

/** Places of z that belong to none of the tasks and not to the plant: commands that stand for good, memory at rest. */
function standing(part: Sampled, tasks: Sampled['tasks']): number[] {
  const driven = new Set(tasks.flatMap(({ run }) => [...run.rows]));
  return Array.from({ length: part.size - part.plant.n }, (_, k) => part.plant.n + k).filter(
    (k) => !driven.has(k) && !tasks.some((t) => k >= t.memoryAt && k < t.samplesAt + t.slots * t.size),
  );
}

/** Rates whose map value belongs to a plant mode beyond half the sampling rate: A has its true frequency. */
function withoutAliases(found: readonly Complex[], plant: readonly Complex[], T: number): Complex[] {
  const folded = plant
    .filter(({ im }) => Math.abs(im) * T > Math.PI)
    .map(({ re, im }) => {
      const turns = Math.round((im * T) / (2 * Math.PI));
      return { re, im: Math.abs(im - (2 * Math.PI * turns) / T) };
    });
  return found.filter((s) => !folded.some((f) => Math.hypot(f.re - s.re, f.im - Math.abs(s.im)) * T < 0.3));
}

function verdictOf(modes: readonly Complex[]): Omit<Cell, keyof ShareStep | 'steady_error_ratio'> {
  let growth: Complex = { re: Number.NEGATIVE_INFINITY, im: 0 };
  let slow: Complex | null = null;
  let fast: Complex | null = null;
  const damping = (s: Complex): number => -s.re / magnitude(s);
  for (const s of modes) {
    if (s.re > growth.re) growth = s;
    const f = Math.abs(s.im) / (2 * Math.PI);
    if (f > 1e4 || s.im === 0) continue;
    if (f < 1e3) {
      if (slow === null || damping(s) < damping(slow)) slow = s;
    } else if (fast === null || damping(s) < damping(fast)) fast = s;
  }
  const hertz = (s: Complex | null): number | null => (s === null ? null : Math.abs(s.im) / (2 * Math.PI));
  return {
    stable: growth.re < 0,
    growth_per_s: growth.re,
    growth_Hz: hertz(growth),
    damping_ratio: slow === null ? 1 : damping(slow),
    damping_Hz: hertz(slow),
    damping_fast_ratio: fast === null ? 1 : damping(fast),
    damping_fast_Hz: hertz(fast),
    reason: null,
  };
}

/** Settles the scenario as it is, dead band on, and reads how unevenly the shelves carry. */
export function steadyError(scenario: Scenario, load_W: number): number {
  const at: Scenario = {
    ...scenario,
    load: { kind: 'constant', power_W: load_W },
    start: 'settled',
    events: [],
  };
  const { network, stepper } = ready(assemble(at), makeDemand(at), 1);
  const { stages, shelfCount } = network;
  const y: number[] = [];
  for (let k = 0; k < shelfCount; k++) {
    if (stages.running[k]) y.push(stepper.x0[stages.offset + k]! / stages.columns.rated_A[k]!);
  }
  const mean = y.reduce((sum, value) => sum + value, 0) / y.length;
  return Math.max(...y.map((value) => Math.abs(value - mean)));
}
