/**
 * The modes of the cabinet about rest: what is left of a small disturbance, each with its frequency, damping,
 * time constant and owners.
 *
 * Parts without firmware have the eigenvalues of A. A part with firmware has those of its period map, z = exp(s
 * T); what dies out within a hyper-period, or turns faster than half the firmware's rate, cannot be read from
 * there and comes from the part with the commands of its slowest tasks held, and so on down to A.
 */

import { arcTangent } from '../base/arc-tangent.ts';
import { exponential as realExponential } from '../base/exponential.ts';
import { blocksOf, restrict } from './blocks.ts';
import { type Complex, exponential, logarithm, magnitude } from './complex.ts';
import { Hessenberg } from './hessenberg.ts';
import { type Owner, ownersOf, participation } from './owners.ts';
import { PeriodMap, wholePeriod } from './period-map.ts';
import { outerTasks, type Sampled } from './sampled.ts';
import { Stretches } from './stretches.ts';

export interface Mode {
  readonly real_per_s: number;
  readonly frequency_Hz: number;
  readonly damping_ratio: number;
  /** Negative for a mode that grows. */
  readonly time_constant_s: number;
  /** Modes that coincide, conjugates counted once. */
  readonly count: number;
  /** Firmware takes part. */
  readonly sampled: boolean;
  /** It changes its sign from one sampling to the next: it swings, but is one pole and not a pair. */
  readonly alternates: boolean;
  readonly owners: readonly Owner[];
}

/** Modes whose part over one hyper-period is below exp(−this) are taken from A. */
const gone = 12;

/** A growth over one hyper-period above exp(this) is not worth multiplying out. */
const runaway = 40;

/** Relative distance at which modes coincide. */
const sameness = 1e-5;

/** Above this no averaged model holds [Hz]. */
export const highest_Hz = 2e4;

export interface ModeOptions {
  /** Modes faster than this are left out [Hz]: what no averaged model holds for, where it is not said. */
  readonly highest_Hz?: number;
  /** Only modes that grow or decay about as fast as this, by a tenth [1/s]: the owners of each cost as much as all values. */
  readonly near_per_s?: number;
}

export function modesOf(system: Sampled, options: ModeOptions = {}): Mode[] {
  const highest = 2 * Math.PI * (options.highest_Hz ?? highest_Hz);
  const { near_per_s } = options;
  const isWanted = (re: number): boolean =>
    near_per_s === undefined || Math.abs(re - near_per_s) <= 0.1 * Math.abs(near_per_s);
  const found = foundIn(system).filter(({ s }) => magnitude(s) <= highest && isWanted(s.re));
  const modes = together(found.map((one) => one.mode()));
  return modes.sort((a, b) => b.real_per_s - a.real_per_s || a.frequency_Hz - b.frequency_Hz);
}

/** Eigenvalues as a rate, how many coincide, and what they are with their owners, which costs more. */
interface Found {
  readonly s: Complex;
  readonly count: number;
  mode(): Mode;
}

function foundIn(system: Sampled): Found[] {
  return blocksOf(system).flatMap((block) => {
    const part = restrict(system, block);
    return block.isSampled ? foundInLoop(part) : foundInPlant(part);
  });
}

function foundInPlant({ plant }: Sampled): Found[] {
  if (plant.n === 0) return [];
  const pair = new Pair(plant.A, plant.n);
  return pair.values().map(({ s, count }) => ({
    s,
    count,
    mode: () => pair.mode(s, s, count, plant.labels, false),
  }));
}

/** What a part is with the commands of its slowest tasks held; where there are no others, its plant. */
function foundHeld(part: Sampled): Found[] {
  const longest = Math.max(...part.tasks.map(({ period }) => period));
  const tasks = part.tasks.filter(({ period }) => period < longest);
  return tasks.length === 0 ? foundInPlant(part) : foundIn({ ...part, tasks });
}

function foundInLoop(part: Sampled): Found[] {
  const held = foundHeld(part);
  const ticks = wholePeriod(part);
  const T = ticks * part.tick_s;
  const nyquist = Math.PI / (Math.min(...outerTasks(part).map(({ period }) => period)) * part.tick_s);
  if (held.some(({ s }) => s.re * T > runaway)) return held;
  const beyond = held.filter(({ s }) => s.re * T < -gone || Math.abs(s.im) > nyquist);
  const { plant } = part;
  const map = new PeriodMap(
    part,
    ticks,
    new Stretches(plant.A, part.commandColumns, plant.n, part.tick_s, part.rungTicks),
  );
  const pair = new Pair(map.matrix(), part.size);
  const seen = pair.values().filter(({ s: z }) => magnitude(z) > realExponential(-gone));
  // The fast modes of A show up in the map too, their turns uncounted: each takes its nearest out.
  for (const { s } of beyond.filter(({ s }) => s.re * T >= -gone)) {
    const z = exponential({ re: s.re * T, im: s.im * T });
    takeNearest(seen, z);
  }
  const sampled = seen.map(({ s: z, count }): Found => {
    const log = logarithm(z);
    return {
      s: { re: log.re / T, im: log.im / T },
      count,
      mode: () => pair.sampledMode(z, count, map, part.labels),
    };
  });
  return [...beyond, ...sampled];
}

/** A and its transpose in Hessenberg form. */
class Pair {
  private readonly of: Hessenberg;
  private readonly transposed: Hessenberg;

  constructor(A: Float64Array, n: number) {
    this.of = new Hessenberg(A, n);
    const turned = new Float64Array(n * n);
    for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) turned[j * n + i] = A[i * n + j]!;
    this.transposed = new Hessenberg(turned, n);
  }

  /** Eigenvalues of the upper half plane, those that coincide gathered. */
  values(): { s: Complex; count: number }[] {
    const all = this.of
      .eigenvalues()
      .filter(({ im }) => im >= 0)
      .sort((a, b) => b.re - a.re);
    return gather(all);
  }

  mode(s: Complex, at: Complex, count: number, labels: readonly string[], sampled: boolean): Mode {
    const { weights } = participation(this.of, this.transposed, at, count);
    return modeAt(s, count, sampled, ownersOf(weights, labels));
  }

  /** A mode of the period map: s = ln(z)/T, with the whole turns counted along its right vector. */
  sampledMode(z: Complex, count: number, map: PeriodMap, labels: readonly string[]): Mode {
    const { weights, right } = participation(this.of, this.transposed, z, count);
    const log = logarithm(z);
    const followed = z.im === 0 && z.re > 0 ? alternated(map, right) : turned(map, right);
    const turns = Math.round((followed - log.im) / (2 * Math.PI));
    const s = { re: log.re / map.period_s, im: (log.im + 2 * Math.PI * turns) / map.period_s };
    const mode = modeAt({ re: s.re, im: Math.abs(s.im) }, count, true, ownersOf(weights, labels));
    return { ...mode, alternates: z.im === 0 && mode.frequency_Hz > 0 };
  }
}

/** Like units by themselves have like modes: one entry for all, its owners by their share of the whole. */
function together(modes: readonly Mode[]): Mode[] {
  const out: { mode: Mode; parts: Mode[] }[] = [];
  for (const mode of modes) {
    const omega = 2 * Math.PI * mode.frequency_Hz;
    const size = Math.hypot(mode.real_per_s, omega);
    const same = out.find(
      ({ mode: m }) =>
        Math.hypot(m.real_per_s - mode.real_per_s, 2 * Math.PI * m.frequency_Hz - omega) < sameness * size,
    );
    if (same === undefined) out.push({ mode, parts: [mode] });
    else same.parts.push(mode);
  }
  return out.map(({ mode, parts }) => {
    if (parts.length === 1) return mode;
    const count = parts.reduce((sum, part) => sum + part.count, 0);
    const owners = parts
      .flatMap((part) =>
        part.owners.map(({ name, share_ratio }) => ({
          name,
          share_ratio: (share_ratio * part.count) / count,
        })),
      )
      .sort((a, b) => b.share_ratio - a.share_ratio);
    return { ...mode, count, owners };
  });
}

/** Eigenvalues sorted by real part, those within `sameness` of each other gathered. */
export function gather(values: readonly Complex[]): { s: Complex; count: number }[] {
  const out: { s: Complex; count: number }[] = [];
  for (const s of values) {
    const size = magnitude(s);
    const same = out.find((o) => Math.hypot(o.s.re - s.re, o.s.im - s.im) <= sameness * size);
    if (same !== undefined) same.count++;
    else out.push({ s: s.im < sameness * size && s.im > 0 ? { re: s.re, im: 0 } : s, count: 1 });
  }
  return out;
}

function takeNearest(seen: { s: Complex; count: number }[], z: Complex): void {
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  seen.forEach(({ s }, k) => {
    const d = Math.hypot(s.re - z.re, s.im - Math.abs(z.im));
    if (d < least) {
      least = d;
      best = k;
    }
  });
  if (best >= 0 && least < 0.3 * magnitude(z)) seen.splice(best, 1);
}

/**
 * Angle by which the right vector of a positive value turns [rad]: none, or half a turn from each sampling of the fastest task to the
 * next. What alternates there comes back with its own sign after an even number of them, and would pass for a decay without a swing.
 */
function alternated(map: PeriodMap, right: { readonly re: Float64Array; readonly im: Float64Array }): number {
  const { plant, commandCount } = map.system;
  const seen = plant.n + commandCount;
  const [fastest] = [...outerTasks(map.system)].sort((a, b) => a.period - b.period);
  const parts = [right.re.slice(), right.im.slice()];
  let before = parts.map((part) => part.slice(0, seen));
  let turns = true;
  let samplings = 0;
  const compare = (): void => {
    const along = parts.reduce((sum, part, p) => {
      for (let k = 0; k < seen; k++) sum += part[k]! * before[p]![k]!;
      return sum;
    }, 0);
    turns &&= along < 0;
    samplings++;
    before = parts.map((part) => part.slice(0, seen));
  };
  map.operating((operate) => {
    for (const operation of map.operations) {
      if (operation.kind === 'sample' && operation.task === fastest && operation.tick > 0) compare();
      for (const part of parts) operate(operation, part);
    }
    compare();
  });
  return turns ? Math.PI * samplings : 0;
}

/** Angle by which a right vector turns over a hyper-period, from how it turns over each stretch [rad]. */
function turned(map: PeriodMap, right: { readonly re: Float64Array; readonly im: Float64Array }): number {
  const re = right.re.slice();
  const im = right.im.slice();
  const n = map.system.plant.n;
  let all = 0;
  map.operating((operate) => {
    for (const operation of map.operations) {
      const re0 = re.slice(0, n);
      const im0 = im.slice(0, n);
      operate(operation, re);
      operate(operation, im);
      if (operation.kind !== 'stretch') continue;
      let [a, b] = [0, 0];
      for (let k = 0; k < n; k++) {
        a += re0[k]! * re[k]! + im0[k]! * im[k]!;
        b += re0[k]! * im[k]! - im0[k]! * re[k]!;
      }
      all += arcTangent(b, a);
    }
  });
  return all;
}

export function modeAt(s: Complex, count: number, sampled: boolean, owners: readonly Owner[]): Mode {
  const size = magnitude(s);
  return {
    real_per_s: s.re,
    frequency_Hz: Math.abs(s.im) / (2 * Math.PI),
    damping_ratio: size > 0 ? -s.re / size : 1,
    time_constant_s: -1 / s.re,
    count,
    sampled,
    alternates: false,
    owners,
  };
}
