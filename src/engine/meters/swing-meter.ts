/**
 * Sustained swings of the nodes' voltages, of the shelves' and battery shelves' currents and of the trays' powers,
 * between edges of the load and events: how large, how fast, growing or dying, since when.
 *
 * Each channel's turning points (zigzag.ts) make rows of half swings at each scale; a row goes on while its periods are alike,
 * within a factor of two of each other. Every edge ends all rows; new ones begin `settle_s` after it. What of a row
 * is sustained: sustained.ts.
 */
import type { Channel, ChannelKind } from '../../channels/channel.ts';
import type { Network } from '../../network/network.ts';
import type { Swings } from '../result.ts';
import { GapLengths } from './gap-lengths.ts';
import { GrowthMarks } from './growth.ts';
import { HalfSwings } from './half-swings.ts';
import { LoadTurns } from './load-turns.ts';
import { sustainedIn } from './sustained-swing.ts';
import { SwingBook } from './swing-book.ts';
import { scales, type TurnTaker, Zigzag } from './zigzag.ts';

/** Left out after an edge [s]: about two periods of the slowest mode that local capacitors make, 1 kHz. */
const settle_s = 2e-3;

/** Least swing that is seen, over nominal voltage, rated current or rated power. */
export const swingFloor_ratio = { node: 5e-4, device: 3e-3 } as const;

/** Periods of one row lie within this factor of each other. */
const sameRow = 2;

/** Weight of a new period in the mean that the next is held against. */
const newest = 0.25;

/**
 * Most that a swing of the load or of the line's power in amperes can move: a device by as much (trays by as many
 * watts), a node by this impedance of it: 5 mΩ at 50 V, several times that of any node of the reference cabinet, and at
 * another voltage as much of its square, as impedances at the same power are.
 */
export function highestImpedance_ohm(nominal_V: number): number {
  return 2e-6 * nominal_V * nominal_V;
}

const metered: ReadonlySet<ChannelKind> = new Set([
  'node-voltage',
  'shelf-current',
  'tray-power',
  'battery-current',
]);

export class SwingMeter implements TurnTaker {
  private readonly names: readonly string[];
  readonly zigzag: Zigzag;
  readonly load: LoadTurns;
  private readonly book: SwingBook;
  private readonly gaps = new GapLengths();
  /** Made where a row first begins: most places of a run never see one. */
  private readonly rows: (HalfSwings | null)[];
  private readonly growth: (GrowthMarks | null)[];
  /** By scale, then channel: turns since looking began, which the first may be. */
  private readonly turns: Float64Array;
  private readonly last: Float64Array;
  private readonly swing: Float64Array;
  private readonly lastTick: Float64Array;
  private readonly beforeTick: Float64Array;
  private readonly period: Float64Array;
  /** What the load had turned when the row began, one line for each row. */
  private readonly loadCount: Float64Array;
  private readonly loadSum_A: Float64Array;
  /** The load's swing that a swing of one unit takes at least [A]. */
  private readonly perUnit_A: Float64Array;
  private readonly tick_s: number;
  private readonly settle: number;
  /** Looks from this tick on. */
  private from = 0;
  private looks = false;

  constructor(channels: readonly Channel[], network: Network, profileOf: Int32Array) {
    const { nominal_V, rated_W, tick_s } = network.scenario;
    const picked = channels
      .map(({ id, kind, owner }, index) => ({ id, kind, owner, index }))
      .filter(({ kind }) => metered.has(kind));
    const n = picked.length;
    this.tick_s = tick_s;
    this.settle = Math.round(settle_s / tick_s);
    this.names = picked.map(({ id }) => id);
    const floor = Float64Array.from(picked, ({ kind, owner }) =>
      kind === 'node-voltage'
        ? swingFloor_ratio.node * nominal_V
        : swingFloor_ratio.device * ratedOf(network, kind, owner),
    );
    this.zigzag = new Zigzag(
      Int32Array.from(picked, ({ index }) => index),
      floor,
      this,
    );
    this.load = new LoadTurns(network.sleds, profileOf, rated_W, nominal_V);
    this.perUnit_A = Float64Array.from(picked, ({ kind }) =>
      kind === 'node-voltage'
        ? 1 / highestImpedance_ohm(nominal_V)
        : kind === 'tray-power'
          ? 1 / nominal_V
          : 1,
    );
    const places = scales * n;
    this.book = new SwingBook(places);
    this.rows = Array.from({ length: places }, () => null);
    this.growth = Array.from({ length: places }, () => null);
    this.turns = new Float64Array(places);
    this.last = new Float64Array(places);
    this.swing = new Float64Array(places);
    this.lastTick = new Float64Array(places);
    this.beforeTick = new Float64Array(places);
    this.period = new Float64Array(places);
    this.loadCount = new Float64Array(places * this.load.count.length);
    this.loadSum_A = new Float64Array(places * this.load.count.length);
  }

  /** The judged window begins at `tick`. */
  start(tick: number): void {
    this.load.start(tick);
    this.from = tick;
  }

  /** The load jumps or something happens. */
  edge(tick: number): void {
    this.cut(tick);
    this.from = tick + this.settle;
  }

  /** A step has ended at `tick`, where the channels have `values`; what `follow` says of them, and of the load. */
  take(
    tick: number,
    values: Float64Array,
    isTurned = this.zigzag.follow(tick, values),
    isLoadTurned = this.load.follow(tick),
  ): void {
    if (isLoadTurned) this.load.take(tick);
    if (this.looks) {
      if (isTurned) this.zigzag.take(tick, values);
      return;
    }
    if (tick < this.from) return;
    this.looks = true;
    this.from = tick;
    this.turns.fill(0);
    this.zigzag.start(tick, values);
  }

  /** All rows end at `tick`. */
  private cut(tick: number): void {
    if (!this.looks) return;
    this.looks = false;
    this.gaps.push(tick - this.from);
    for (let place = 0; place < this.rows.length; place++) {
      // A row that has gone quiet before has ended by itself.
      const isCut = tick - this.lastTick[place]! <= this.period[place]!;
      if (this.turns[place]! > 2) this.close(place, isCut);
    }
  }

  turned(place: number, tick: number, value: number): void {
    const turns = this.turns[place]!++;
    if (turns === 1) this.begin(place, tick);
    else if (turns > 1) this.push(place, tick, Math.abs(value - this.last[place]!));
    this.beforeTick[place] = this.lastTick[place]!;
    this.lastTick[place] = tick;
    this.last[place] = value;
  }

  private begin(place: number, tick: number): void {
    this.rows[place] ??= new HalfSwings();
    this.growth[place] ??= new GrowthMarks();
    this.rows[place].begin(tick);
    this.growth[place].begin();
    const { count, sum_A } = this.load;
    this.loadCount.set(count, place * count.length);
    this.loadSum_A.set(sum_A, place * count.length);
  }

  private push(place: number, tick: number, swing: number): void {
    const row = this.rows[place]!;
    if (row.count > 0) {
      const period = tick - this.beforeTick[place]!;
      const mean = row.count > 1 ? this.period[place]! : period;
      if (period > sameRow * mean || sameRow * period < mean) {
        this.close(place, false);
        this.begin(place, this.lastTick[place]!);
      } else this.period[place] = mean + newest * (period - mean);
    }
    // The smaller of a rise and the fall beside it: what a drift adds to the one it takes from the other.
    const size = row.count > 0 ? Math.min(swing, this.swing[place]!) : swing;
    this.swing[place] = swing;
    row.push(size, tick);
    this.growth[place]!.push(size / this.zigzag.floor[place]!, row.count, tick);
  }

  private close(place: number, isCut: boolean): void {
    const row = this.rows[place]!;
    const found = sustainedIn(row, isCut, this.tick_s);
    if (found === null) return;
    const { load, loadCount, loadSum_A } = this;
    const least_A = found.swing * this.perUnit_A[place % this.names.length]!;
    const byLoad = load.drives(row.count, least_A, loadCount, loadSum_A, place * load.count.length);
    this.book.add(place, found, this.growth[place]!.reading(this.tick_s), byLoad);
  }

  /** What was found up to `tick`, where the judged window ends. */
  reading(tick: number): Swings {
    this.cut(tick);
    return {
      found: this.book.reading(this.names, this.tick_s),
      gaps: this.gaps.reading(this.tick_s),
    };
  }
}

/** What a device's swing is a share of: the rated current of a shelf or battery shelf, the power limit of a tray. */
function ratedOf(network: Network, kind: ChannelKind, owner: string): number {
  const { stages, scenario } = network;
  if (kind === 'tray-power') return scenario.trays.find(({ id }) => id === owner)!.values.power_limit_W;
  return stages.columns.rated_A[stages.names.indexOf(owner)]!;
}
