/**
 * The modes that decide whether a cabinet is stable: all of the plant, the largest of the period map, the largest
 * of the fast tasks' own map. A fraction of the work of `modes.ts`, and without owners; where periods of like rate differ, or
 * do not fit into one another, a map spans several samplings, in which a mode dies away or turns uncounted: then it is that work.
 */
import { exponential } from '../base/exponential.ts';
import { pick } from '../dense/dense.ts';
import { type Basis, largestEigenvalues } from './arnoldi.ts';
import { blocksOf, plantBlocks, restrict } from './blocks.ts';
import { type Complex, logarithm, magnitude } from './complex.ts';
import { Hessenberg } from './hessenberg.ts';
import { modesOf } from './modes.ts';
import { type Carriers, PeriodMap, wholePeriod } from './period-map.ts';
import { innerTasks, outerTasks, type Sampled } from './sampled.ts';
import { Steps } from './steps.ts';
import { Stretches } from './stretches.ts';

export interface Deciding {
  readonly modes: readonly Complex[];
  /** The period map; null where no firmware takes part, or where the plant runs away on its own. */
  readonly map: PeriodMap | null;
}

/** Plant modes gone by exp(−this) within a hyper-period are those of the plant alone. */
const gone = 12;

/** A plant that grows faster than this runs away on its own: powers of its steps would overflow [1/s]. */
const runaway_per_s = 50;

/** Keeps the plant it saw last: one that did not change is not multiplied out again. */
export class DecidingModes {
  private readonly bases: { readonly whole: Basis; readonly fast: Basis };
  private readonly slow: 'together' | 'apart';
  private A: Float64Array = new Float64Array(0);
  private B: readonly Float64Array[] = [];
  private stretches: Carriers | null = null;
  private modes: Complex[] = [];
  reused = 0;

  /** `slow`: tasks much slower than the fastest, carried through together with it or, cheaper, with it held. */
  constructor(
    bases: { readonly whole: Basis; readonly fast: Basis },
    slow: 'together' | 'apart' = 'together',
  ) {
    this.bases = bases;
    this.slow = slow;
  }

  /** Throws BadInput where tasks that are carried through together have no common multiple of their periods. */
  of(system: Sampled): Deciding {
    const blocks = blocksOf(system);
    const aside = blocks
      .filter(({ isSampled }) => !isSampled)
      .flatMap(({ places }) => modesAt(system.plant.A, system.plant.n, places));
    const looped = blocks
      .filter(({ isSampled }) => isSampled)
      .sort((a, b) => b.places.length - a.places.length)
      .map((block) => this.ofLoop(restrict(system, block)));
    return {
      modes: [...aside, ...looped.flatMap(({ modes }) => modes)],
      map: looped[0]?.map ?? null,
    };
  }

  /** A part in which firmware has its hand. */
  private ofLoop(part: Sampled): Deciding {
    const { stretches, modes } = this.plantOf(part);
    const inner = innerTasks(part);
    if (inner.length === part.tasks.length) return { modes, map: null };
    const outer = outerTasks(part);
    const periods = outer.map(({ period }) => period);
    const shortest = Math.min(...periods);
    const fast = outer.filter(({ period }) => 5 * shortest >= period);
    const slow = outer.filter((task) => !fast.includes(task));
    const isApart = this.slow === 'apart';
    const isWhole = !isApart || slow.length === 0;
    const ticks = isWhole ? wholePeriod(part) : Math.max(...periods);
    if (isWhole && !isOneRate(slow.length > 0 ? slow : fast, ticks))
      return { modes: counted(part), map: isApart ? null : new PeriodMap(part, ticks, stretches) };
    // Slower than that, the firmware has its hand on them: the maps tell.
    const own_rad_per_s = Math.PI / (shortest * part.tick_s);
    const all = modes.filter(
      ({ re, im }) => re >= runaway_per_s || re * ticks * part.tick_s < -gone || Math.abs(im) > own_rad_per_s,
    );
    if (modes.some(({ re }) => re >= runaway_per_s)) return { modes: all, map: null };
    const alone = (group: Sampled['tasks'], basis: Basis): Complex[] => {
      const tasks = part.tasks.filter((task) => task.isInner || group.includes(task));
      const own = { ...part, tasks };
      const own_ticks = wholePeriod(own);
      if (!isOneRate(group, own_ticks)) return counted(own);
      const map = new PeriodMap(own, own_ticks, stretches);
      return withoutAliases(rates(map, basis, standing(part, tasks)), modes, map.period_s);
    };
    if (slow.length > 0) all.push(...alone(fast, this.bases.fast));
    if (slow.length > 0 && isApart) return { modes: [...all, ...alone(slow, this.bases.whole)], map: null };
    const map = new PeriodMap(part, ticks, stretches);
    return { modes: [...all, ...rates(map, this.bases.whole)], map };
  }

  private plantOf(part: Sampled): { stretches: Carriers; modes: Complex[] } {
    const { plant, commandColumns } = part;
    const same =
      this.stretches !== null &&
      alike(this.A, plant.A) &&
      commandColumns.every((b, k) => alike(this.B[k]!, b));
    if (same) this.reused++;
    else {
      this.A = plant.A;
      this.B = commandColumns;
      this.stretches = this.carriersOf(part);
      this.modes = plantBlocks(plant.A, plant.n).flatMap((places) => modesAt(plant.A, plant.n, places));
    }
    const stretches = this.stretches!;
    const inner = innerTasks(part);
    return { stretches, modes: inner.length === 0 ? this.modes : innerModes(part, this.modes, stretches) };
  }

  /** Few vectors are carried where slow tasks are looked at apart: their stretches are not multiplied out. */
  private carriersOf(part: Sampled): Carriers {
    const { plant, commandColumns, tick_s, rungTicks } = part;
    if (this.slow === 'together') return new Stretches(plant.A, commandColumns, plant.n, tick_s, rungTicks);
    // Inner loops ask for the engine's own rung, of which a stretch has too many to be gone one by one.
    return innerTasks(part).length === 0
      ? new Steps(plant.A, commandColumns, plant.n, tick_s, rungTicks)
      : new Stretches(plant.A, commandColumns, plant.n, tick_s, rungTicks, 'in-pieces');
  }
}

/** Tasks of one period, into which everything that acts with them fits: their map is one sampling long. */
function isOneRate(group: Sampled['tasks'], ticks: number): boolean {
  return group.every(({ period }) => period === ticks);
}

/** All modes with their turns counted along the map. */
function counted(part: Sampled): Complex[] {
  return modesOf(part, { highest_Hz: Number.POSITIVE_INFINITY })
    .map(({ real_per_s, frequency_Hz }) => ({ re: real_per_s, im: 2 * Math.PI * frequency_Hz }))
    .filter((s) => magnitude(s) > slowest_rad_per_s);
}

/**
 * Modes of a plant with its inner loops closed and all other commands held: those of A that are beyond half the inner loops'
 * rate, and all others from the map of their own period, which is short.
 */
function innerModes(part: Sampled, plant: readonly Complex[], stretches: Carriers): Complex[] {
  const own = { ...part, tasks: innerTasks(part) };
  const map = new PeriodMap(own, wholePeriod(own), stretches);
  const still = new Set(standing(part, own.tasks));
  const places = Array.from({ length: part.size }, (_, k) => k).filter((k) => !still.has(k));
  const half_rad_per_s = Math.PI / map.period_s;
  const values = new Hessenberg(pick(map.matrix(), part.size, places), places.length, false).eigenvalues();
  const found = values.filter((z) => magnitude(z) > exponential(-gone)).map((z) => rateOf(z, map.period_s));
  return [
    ...plant.filter(({ im }) => Math.abs(im) > half_rad_per_s),
    ...withoutAliases(found, plant, map.period_s),
  ];
}

function alike(a: Float64Array | undefined, b: Float64Array): boolean {
  return a !== undefined && a.length === b.length && a.every((x, k) => x === b[k]);
}

/** Eigenvalues of the part of a plant (n × n) at `places`. */
function modesAt(A: Float64Array, n: number, places: readonly number[]): Complex[] {
  if (places.length === 1) return [{ re: A[places[0]! * (n + 1)]!, im: 0 }];
  return new Hessenberg(pick(A, n, places), places.length, false).eigenvalues();
}

/**
 * Loops slower than this are left to the full analysis: the trays' charge loops all but coincide, and a short
 * basis cannot part them [rad/s].
 */
const slowest_rad_per_s = 0.3;

/** Eigenvalues of a period map as rates, s = ln(z)/T; what has not settled in the basis is left out. */
function rates(map: PeriodMap, basis: Basis, still: readonly number[] = []): Complex[] {
  const { size } = map.system;
  const largest = map.carrying((carry) => {
    const held = (z: Float64Array): void => {
      carry(z);
      for (const k of still) z[k] = 0;
    };
    return largestEigenvalues(held, size, basis);
  });
  return largest.map((z) => rateOf(z, map.period_s)).filter((s) => magnitude(s) > slowest_rad_per_s);
}

/** A value of a map as a rate, s = ln(z)/T. One that alternates from sample to sample swings at half the map's rate. */
function rateOf(z: Complex, period_s: number): Complex {
  const log = logarithm(z);
  return { re: log.re / period_s, im: z.im === 0 && z.re > 0 ? 0 : log.im / period_s };
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
