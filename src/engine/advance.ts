/** Takes a cabinet from one tick to another: agenda, ladder, steps. */
import type { Moment } from '../devices/plant.ts';
import type { Waits } from '../devices/waits.ts';
import type { Watcher } from '../firmware/task.ts';
import type { Agenda } from './agenda.ts';
import type { Cabinet } from './cabinet.ts';

/** What looks on while a cabinet advances. */
export interface Observer {
  /** The load jumps or an event happens at `tick`, or a guard of the cabinet's own acts: limits, stops or starts a unit. */
  edge(tick: number, by: 'load' | 'event' | 'guard'): void;
  /** A step was taken; the stepper holds both ends. False ends the run. */
  step(tick0: number, tick1: number): boolean;
}

/** A kink of the load counts as an edge above this change of slope, in rated power per second. */
const edgeSlope_per_s = 5;

export type AdvanceEnding = 'reached' | 'ended' | 'not-finite';

/**
 * Advances from `from` up to `to`; what is due at `to` itself is left for the next stretch. Ends early when
 * the observer says so or the states are no longer finite. Returns how it ended and the tick reached.
 */
export function advance(
  cabinet: Cabinet,
  agenda: Agenda,
  from: number,
  to: number,
  observer: Observer | null,
): { readonly ending: AdvanceEnding; readonly tick: number } {
  const { demand, stepper, ladder, controls, log } = cabinet;
  const { watchers, supervision } = controls;
  const edge_W_per_s = edgeSlope_per_s * cabinet.network.scenario.rated_W;
  const end = { x: stepper.x1, v: stepper.v1 };
  let tick = from;
  let supervised = -1;
  /** Nobody was busy when last asked, and nothing has happened since. */
  let isCalm = false;
  let lowest_V = stepper.v0.reduce((a, b) => Math.min(a, b), Number.MAX_VALUE);
  let kink = demand.nextKink(tick - 1);
  while (tick < to) {
    log.tick = tick;
    if (tick === agenda.next && !agenda.runDue(tick)) isCalm = false;
    if (tick === kink) {
      const bend_W_per_s = demand.kinkAt(tick);
      ladder.kick(bend_W_per_s);
      if (bend_W_per_s > edge_W_per_s) observer?.edge(tick, 'load');
      kink = demand.nextKink(tick);
    }
    let watched = to;
    if (!isCalm) isCalm = isAsleep(watchers, stepper.step.waits, lowest_V);
    if (!isCalm) {
      // Once at each sample, also where the step from it is taken again: watchers count time by their runs.
      if (tick % supervision === 0 && tick !== supervised) {
        supervised = tick;
        for (const watcher of watchers) if (ladder.kick(watcher.run(tick))) observer?.edge(tick, 'guard');
      }
      watched = tick - (tick % supervision) + supervision;
    }
    const stop = Math.min(agenda.next, kink, watched, to);
    const ticks = ladder.next(stop - tick);
    const outcome = stepper.take(tick, ticks, ladder.rungTicks);
    if (outcome === 'not-finite') return { ending: 'not-finite', tick };
    if (outcome === 'cycled') {
      cabinet.modeRetries++;
      ladder.eighth(ticks);
      isCalm = false;
      continue;
    }
    // Also where it is thrown away: it may have left a clamp in another branch, and nothing else that anybody waits for.
    if (stepper.isDue) isCalm = false;
    if (!ladder.accepts(ticks, stepper.surprise_V)) continue;
    if (stepper.isDue && ticks > supervision && isMissed(watchers, end, stepper.lowest_V)) {
      ladder.atMost(supervision);
      continue;
    }
    cabinet.steps++;
    if (outcome === 'unsettled') cabinet.unsettled++;
    const goOn = observer === null || observer.step(tick, tick + ticks);
    stepper.accept();
    ladder.done(ticks, stepper.surprise_V);
    tick += ticks;
    lowest_V = stepper.lowest_V;
    if (!goOn) return { ending: 'ended', tick };
  }
  return { ending: 'reached', tick };
}

/** No watcher waits for its turn or is near its threshold; then each has said what would wake it. */
function isAsleep(watchers: readonly Watcher[], waits: Waits, lowest_V: number): boolean {
  for (const watcher of watchers) if (watcher.isBusy(lowest_V)) return false;
  waits.clear();
  for (const watcher of watchers) watcher.waitFor(waits);
  return true;
}

/** A watcher would have had to sample inside the last step. */
function isMissed(watchers: readonly Watcher[], end: Moment, lowest_V: number): boolean {
  for (const watcher of watchers) if (watcher.isMissed(end, lowest_V)) return true;
  return false;
}
