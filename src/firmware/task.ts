/**
 * What every firmware task is: code that runs at whole ticks, reads samples that are as old as their latency,
 * and writes commands that devices read. No other path leads from one device to another.
 */
import type { Moment } from '../devices/plant.ts';
import type { Waits } from '../devices/waits.ts';
import type { Exposed } from './exposed.ts';
import type { Signal } from './signal/signal.ts';

export interface Task {
  readonly name: string;
  /** Runs the task at its tick. Returns how hard its commands kicked the bus: change of power slope [W/s]. */
  run(tick: number): number;
}

/** A task that runs at its own period on a signal of its own. */
export interface SampledTask extends Task {
  readonly signal: Signal;
  /** Where a scenario states its period. */
  readonly periodPath: string;
  /** Parts that run this much behind the rest [ticks], on what can be read then. */
  readonly later?: readonly LaterPart[];
  /** Its loop stands where a stage would have one of its own: no slower loop is looked at without it. */
  readonly isInner?: true;
  /** How much later than its turn it runs this time [ticks], drawn anew at each; null where it is always in time. */
  readonly lateBy?: (() => number) | null;
  /** Nothing that it does is what a watcher waits for: it starts, stops and trips no unit. */
  readonly isQuiet?: true;
  /** What it shows to whoever differentiates it; null for one that stands still where a cabinet rests. */
  expose(): Exposed | null;
}

export interface LaterPart {
  readonly behind: number;
  run(tick: number): number;
}

/**
 * A task that sleeps until something needs watching, then runs at every supervision period. Whether it does is asked
 * after everything that may start, stop or trip a unit, and at a step that ends beyond what it has said to wait for.
 */
export interface Watcher extends Task {
  /** Something is pending or near a threshold: run at the supervision period. `lowest_V`: the lowest node. */
  isBusy(lowest_V: number): boolean;
  /** The last step, with this `end`, jumped over a threshold that must be sampled: take it again in steps of the supervision period. */
  isMissed(end: Moment, lowest_V: number): boolean;
  /**
   * Says what it waits for while it sleeps: all that makes `isBusy` or `isMissed` true by what a step moves. What firmware
   * and events change needs no bound.
   */
  waitFor(waits: Waits): void;
}
