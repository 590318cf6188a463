/**
 * Workload-side smoothing: an ideal governor on the demand of each sled. Where the work asks for less than a floor it
 * burns the rest for a hold time, and it never lets the demand rise or fall faster than its ramps.
 *
 *   target(t) = max(d, F) while d was at F or above within the last t_hold, else d
 *   g follows the target with  −R_down ≤ dg/dt ≤ R_up
 * d: demand of the sled, F: floor, a share of the sled's peak. What g has beyond d is drawn like any load; what it
 * withholds of d is not made up later (the work would take longer: not modelled). It begins on the demand as it is.
 * Instants that fall between ticks come at the next one.
 * Ideal: no latency, no quantum, no error of the power estimate. A sled without a share of the load has none.
 */
import { BadInput } from '../base/problem.ts';
import { formatQuantity } from '../base/quantity.ts';
import type { Demand } from './demand.ts';
import type { LoadContext } from './load-problem.ts';
import { makeShape, Piecewise } from './piecewise.ts';
import { profilesDemand } from './profiles-demand.ts';

/** A ramp at or above this is none: 15 kW in 15 µs. The fallback of both ramps. */
const noLimit_W_per_s = 1e9;

/** Periods after which a governed cycle counts as never closing. */
const mostPeriods = 500;

/** Two powers within this are the same [W of the whole cabinet]. */
const same_W = 1e-6;

export interface GovernorSettings {
  /** Floor [W], ramps [W per tick], hold [ticks]. */
  readonly floor: number;
  readonly up: number;
  readonly down: number;
  readonly hold: number;
}

/** Follows one demand, straight piece by straight piece, and notes the corners of what it lets through. */
export class Governor {
  readonly ticks: number[] = [];
  readonly values: number[] = [];
  /** Power let through at the last corner. */
  level: number;
  private readonly settings: GovernorSettings;
  /** Tick up to which the demand was last at the floor or above. */
  private activeTo: number;

  constructor(settings: GovernorSettings, tick: number, demand: number) {
    this.settings = settings;
    this.level = demand;
    this.activeTo = demand >= settings.floor ? tick : Number.NEGATIVE_INFINITY;
    this.note(tick);
  }

  /** How long ago the floor's hold began [ticks], as far as it still matters. */
  age(tick: number): number {
    return Math.min(tick - this.activeTo, this.settings.hold + 1);
  }

  /** Forgets the corners so far; the next one is the present. */
  restart(tick: number): void {
    this.ticks.length = 0;
    this.values.length = 0;
    this.note(tick);
  }

  private note(tick: number): void {
    if (this.ticks.at(-1) === tick) this.values[this.values.length - 1] = this.level;
    else {
      this.ticks.push(tick);
      this.values.push(this.level);
    }
  }

  /** The demand goes straight from d0 at t0 to d1 at t1. */
  follow(t0: number, d0: number, t1: number, d1: number): void {
    const { floor, hold } = this.settings;
    const slope = (d1 - d0) / (t1 - t0);
    const at = (tick: number): number => d0 + slope * (tick - t0);
    let t = t0;
    while (t < t1) {
      const crossing = slope === 0 ? Number.NaN : t0 + (floor - d0) / slope;
      const split = Math.ceil(crossing);
      let end = split > t && split < t1 ? split : t1;
      const active = at((t + end) / 2) >= floor;
      if (active) this.activeTo = end;
      const holds = !active && floor > 0 && t - this.activeTo < hold;
      if (holds && this.activeTo + hold < end) end = this.activeTo + hold;
      if (holds) this.chase(t, floor, end, floor);
      else this.chase(t, at(t), end, at(end));
      t = end;
    }
  }

  /** Follows a straight target within the ramps from t0 to t1. */
  private chase(t0: number, T0: number, t1: number, T1: number): void {
    const { up, down } = this.settings;
    const slope = (T1 - T0) / (t1 - t0);
    let t = t0;
    this.note(t);
    while (t < t1) {
      const target = T0 + slope * (t - t0);
      const gap = target - this.level;
      const follows = Math.abs(gap) <= same_W && slope <= up && slope >= -down;
      const rate = gap > same_W || (Math.abs(gap) <= same_W && slope > up) ? up : -down;
      const meets = follows ? t1 : t + Math.ceil(gap / (rate - slope));
      // Ahead of a target that runs away there is no meeting: the whole stretch is a ramp.
      const end = meets > t && meets < t1 ? meets : t1;
      const there = T0 + slope * (end - t0);
      const ramped = this.level + rate * (end - t);
      const passed = rate > 0 ? ramped >= there : ramped <= there;
      if (!follows && !passed) this.level = ramped;
      else {
        // A target that turned within the tick of the meeting may lie beyond both ramps.
        const [most, least] = [this.level + up * (end - t), this.level - down * (end - t)];
        this.level = there > most ? most : there < least ? least : there;
      }
      t = end;
      this.note(t);
    }
  }
}

function isGoverned({ values }: LoadContext['sleds'][number]): boolean {
  return (
    values.governor_floor_ratio > 0 ||
    values.governor_ramp_up_W_per_s < noLimit_W_per_s ||
    values.governor_ramp_down_W_per_s < noLimit_W_per_s
  );
}

/** The demand as the sleds' governors let it through; the same demand where no sled has one. */
export function governed(demand: Demand, context: LoadContext): Demand {
  const { sleds, tick_s, duration_s } = context;
  if (!sleds.some((sled) => isGoverned(sled) && sled.share_ratio > 0)) return demand;
  const duration_ticks = Math.round(duration_s / tick_s);
  const groups = groupsOf(demand, context);
  const period_ticks = walk(demand, groups, duration_ticks);
  const made = profilesDemand({
    profiles: groups.kinds.map(({ governor }) => new Piecewise(shapeOf(governor, period_ticks), 0, tick_s)),
    profileOf: groups.profileOf,
    shares: sleds.map((sled) => sled.share_ratio),
    duration_ticks,
    tick_s,
    period_ticks,
    rounding_s: Math.max(demand.rounding_s, tick_s),
    bandwidth_Hz: demand.bandwidth_Hz,
  });
  const { energy_J, peak_W } = demand;
  const told = {
    ...made,
    remarks: [...(demand.remarks ?? []), sentence(demand, made)],
    asked: { energy_J, peak_W, withheld_J: withheldBy(demand, made, context) },
  };
  return demand.settlesOnMean === undefined ? told : { ...told, settlesOnMean: demand.settlesOnMean };
}

/** Sleds that follow the same profile with the same settings over their share, as one. */
interface Kind {
  readonly profile: number;
  readonly governor: Governor;
}

interface SledGroups {
  readonly kinds: Kind[];
  readonly profileOf: Int32Array;
}

function groupsOf(demand: Demand, { sleds, tick_s }: LoadContext): SledGroups {
  const start = new Float64Array(demand.profileCount);
  demand.at(start, 0);
  const kinds: Kind[] = [];
  const known = new Map<string, number>();
  const profileOf = Int32Array.from(sleds, (sled, k) => {
    const { share_ratio: share, values } = sled;
    const profile = demand.profileOf[k]!;
    const own = isGoverned(sled) && share > 0;
    // In power of the whole cabinet, as profiles are.
    const settings: GovernorSettings = {
      floor: own ? (values.governor_floor_ratio * values.peak_power_W) / share : 0,
      up: own ? (values.governor_ramp_up_W_per_s * tick_s) / share : Number.MAX_VALUE,
      down: own ? (values.governor_ramp_down_W_per_s * tick_s) / share : Number.MAX_VALUE,
      hold: Math.round(values.governor_hold_s / tick_s),
    };
    const key = JSON.stringify([profile, own ? settings : null]);
    let kind = known.get(key);
    if (kind === undefined) {
      kind = kinds.length;
      known.set(key, kind);
      kinds.push({ profile, governor: new Governor(settings, 0, start[profile]!) });
    }
    return kind;
  });
  return { kinds, profileOf };
}

/** Lets every governor follow its demand; gives the period in which all of them repeat, or null. */
function walk(demand: Demand, { kinds }: SledGroups, duration: number): number | null {
  const { period_ticks: period } = demand;
  if (period === null) {
    stretch(demand, kinds, 0, duration);
    return null;
  }
  let before = '';
  for (let n = 0; n < mostPeriods; n++) {
    for (const { governor } of kinds) governor.restart(n * period);
    stretch(demand, kinds, n * period, (n + 1) * period);
    const now = JSON.stringify(
      kinds.map(({ governor }) => [Math.round(governor.level / same_W), governor.age((n + 1) * period)]),
    );
    if (now === before) {
      for (const { governor } of kinds) shift(governor, n * period);
      return period;
    }
    before = now;
  }
  throw new BadInput([
    {
      severity: 'error',
      path: 'sleds.governor_ramp_up',
      found: `governors so slow that the demand does not repeat after ${mostPeriods} periods of the load`,
      expected: 'ramps that close the cycle',
      mend: 'raise governor_ramp_up or governor_ramp_down',
    },
  ]);
}

function shift({ ticks }: Governor, by: number): void {
  for (let i = 0; i < ticks.length; i++) ticks[i]! -= by;
}

function stretch(demand: Demand, kinds: readonly Kind[], from: number, to: number): void {
  let d0 = new Float64Array(demand.profileCount);
  let d1 = new Float64Array(demand.profileCount);
  demand.at(d0, from);
  for (let t = from; t < to; ) {
    const next = Math.min(to, demand.nextKink(t));
    demand.at(d1, next);
    for (const { profile, governor } of kinds) governor.follow(t, d0[profile]!, next, d1[profile]!);
    [d0, d1] = [d1, d0];
    t = next;
  }
}

function shapeOf({ ticks, values }: Governor, period: number | null): ReturnType<typeof makeShape> {
  // A period's last corner is the first of the next.
  const n = period !== null && ticks.at(-1) === period ? ticks.length - 1 : ticks.length;
  return makeShape(ticks.slice(0, n), values.slice(0, n), period);
}

/** Points at which demand and what is let through are compared. */
const comparisons = 50_000;

/**
 * Energy that the work asks for and does not get when it asks [J], whatever is burnt at other times: the mean over the
 * run's midpoints of what each sled is short of.
 */
function withheldBy(asked: Demand, drawn: Demand, { sleds, tick_s, duration_s }: LoadContext): number {
  const duration_ticks = Math.round(duration_s / tick_s);
  const points = Math.min(duration_ticks, comparisons);
  const wanted = new Float64Array(asked.profileCount);
  const given = new Float64Array(drawn.profileCount);
  let short_W = 0;
  for (let j = 0; j < points; j++) {
    const tick = Math.floor(((j + 0.5) / points) * duration_ticks);
    asked.at(wanted, tick);
    drawn.at(given, tick);
    sleds.forEach(({ share_ratio }, k) => {
      short_W += share_ratio * Math.max(0, wanted[asked.profileOf[k]!]! - given[drawn.profileOf[k]!]!);
    });
  }
  return (short_W / points) * duration_s;
}

function sentence(asked: Demand, drawn: Demand): string {
  const more = drawn.energy_J - asked.energy_J;
  const energy = formatQuantity(Math.abs(more), 'energy', 4);
  const share = ((100 * Math.abs(more)) / asked.energy_J).toFixed(2);
  const said =
    more >= 0
      ? `draw ${energy} more than the work asks, ${share} %`
      : `draw ${energy} less than the work asks, ${share} %, which is not made up later`;
  return `The sleds smooth their own load: they ${said}.`;
}
