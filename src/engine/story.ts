/**
 * Tells the log what firmware does not: a stage that runs into its limit (why, the shelf's guard says) and when it
 * has been free of it for 10 ms, a bus that falls below a voltage
 * at which somebody acts (batteries start, sleds turn resistive or cut off). Together with firmware's own entries the log then tells how one thing led to another.
 */
import { stageMode } from '../devices/stage/stage.ts';
import type { Log } from '../events/log.ts';
import type { SpanTrack } from '../events/span-book.ts';
import { freeOfLimit_s } from '../firmware/shelf/power-hold.ts';
import type { ShelfGuard } from '../firmware/shelf/shelf-guard.ts';
import type { Network } from '../network/network.ts';
import type { Stepper } from './stepper.ts';

/** Entries of one kind about one unit; one that hunts would fill the log with the same line. */
const most = 8;

/** The bus counts as back this far above its highest level, over nominal, so that ripple does not write the log. */
const back_ratio = 2e-3;

export class Story {
  private readonly network: Network;
  private readonly stepper: Stepper;
  private readonly log: Log;
  /** Highest first [V]. */
  private readonly levels_V: readonly number[];
  private readonly back_V: number;
  private readonly guard: ShelfGuard;
  private readonly limited: Uint8Array;
  /** Stages of which it was told that they are at their limit. */
  private limitedCount = 0;
  /** Tick at which a stage that was at its limit counts as free of it. */
  private readonly freeAt: Float64Array;
  private readonly free: number;
  private readonly told: Uint8Array;
  private readonly low: SpanTrack;
  private depth = 0;
  private depths = 0;

  constructor(network: Network, stepper: Stepper, guard: ShelfGuard, log: Log) {
    this.network = network;
    this.stepper = stepper;
    this.guard = guard;
    this.log = log;
    this.low = log.spans.track('bus-low', 'bus', '');
    this.freeAt = new Float64Array(network.stages.count);
    this.free = Math.round(freeOfLimit_s / network.scenario.tick_s);
    const { sleds, firmware, nominal_V } = network.scenario;
    this.back_V = back_ratio * nominal_V;
    const acted = sleds.flatMap(({ values }) => [values.constant_power_voltage_V, values.cut_off_voltage_V]);
    this.levels_V = [...new Set([firmware.handover.trigger_voltage_V, ...acted])].sort((a, b) => b - a);
    this.limited = new Uint8Array(network.stages.count);
    this.told = new Uint8Array(network.stages.count);
  }

  /** Looks at the step just taken, which ends at the log's next tick; `mayLimit`: some stage may be at its limit. */
  step(tick1: number, mayLimit: boolean): void {
    if (mayLimit || this.limitedCount > 0) this.lookAtStages(tick1);
    const { levels_V, depth } = this;
    const v = this.stepper.lowest_V;
    if (depth < levels_V.length && v < levels_V[depth]!) this.tellFall(v, tick1);
    else if (depth > 0 && v > levels_V[0]! + this.back_V) this.tellBack(v, tick1);
  }

  private lookAtStages(tick1: number): void {
    const { mode } = this.network.stages;
    for (let k = 0; k < mode.length; k++) {
      if (mode[k] === stageMode.limit) {
        this.freeAt[k] = tick1 + this.free;
        if (!this.limited[k]) this.tellLimit(k, tick1);
      } else if (this.limited[k] && tick1 >= this.freeAt[k]!) this.tellFree(k, tick1);
    }
  }

  /** A shelf that walks in or starts softly tells of that instead. */
  private tellLimit(k: number, tick1: number): void {
    const { stages, shelfCount } = this.network;
    const i = stages.current_A(k, this.stepper.x1);
    const v = this.stepper.v1[stages.node[k]!]!;
    const words =
      k < shelfCount
        ? this.guard.limitWords(k, i, v)
        : `at its current limit of ${stages.limit1_A[k]!.toFixed(0)} A`;
    if (words === null) return;
    this.limited[k] = 1;
    this.limitedCount++;
    this.tell(k, tick1, 'limit-on', words);
  }

  private tellFree(k: number, tick1: number): void {
    const { stages } = this.network;
    this.limited[k] = 0;
    this.limitedCount--;
    const i = stages.current_A(k, this.stepper.x1);
    if (stages.running[k]) this.tell(k, tick1, 'limit-off', `free of its limit at ${i.toFixed(0)} A`);
  }

  private tell(k: number, tick1: number, what: 'limit-on' | 'limit-off', words: string): void {
    if (this.told[k]! >= 2 * most) return;
    const again = ++this.told[k]! === 2 * most ? '; from here on told no more' : '';
    this.note(tick1, this.network.stages.names[k]!, what, `${words}${again}`);
  }

  private tellFall(v: number, tick1: number): void {
    let depth = this.depth;
    while (depth < this.levels_V.length && v < this.levels_V[depth]!) depth++;
    this.depth = depth;
    this.low.begin();
    if (this.depths >= 2 * most) return;
    this.depths++;
    const node = this.stepper.v1.indexOf(v);
    const level = this.levels_V[depth - 1]!;
    this.note(
      tick1,
      'bus',
      'bus-low',
      `${this.network.topology.nodes[node]} at ${v.toFixed(2)} V, below ${level} V`,
    );
  }

  private tellBack(v: number, tick1: number): void {
    this.depth = 0;
    this.low.end();
    if (this.depths >= 2 * most) return;
    this.depths++;
    this.note(tick1, 'bus', 'bus-back', `lowest node at ${v.toFixed(2)} V again`);
  }

  private note(
    tick1: number,
    who: string,
    what: 'limit-on' | 'limit-off' | 'bus-low' | 'bus-back',
    detail: string,
  ): void {
    const before = this.log.tick;
    this.log.tick = tick1;
    this.log.note(who, what, detail);
    this.log.tick = before;
  }
}
