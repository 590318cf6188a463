/** One moment of one event of the scenario, with everything it may touch. */
import type { Log } from '../../events/log.ts';
import type { Controls } from '../../firmware/controls.ts';
import type { Network } from '../../network/network.ts';
import type { EventSpec } from '../../scenario/scenario.ts';
import type { Stepper } from '../stepper.ts';

export interface Happening {
  readonly event: EventSpec;
  /** How much of it has come: above 0 to 1 while a ramp comes, 1 at once without one, 0 when it is over. */
  readonly along: number;
  readonly tick: number;
  readonly network: Network;
  readonly controls: Controls;
  readonly stepper: Stepper;
  readonly log: Log;
  /** Energy that leaves the cabinet's books with a part that is taken out or shorted [J]. */
  readonly removed: (owner: string, energy_J: number) => void;
}

/** Carries an event out: called when it comes, at each part of its ramp, and with `along` 0 when it is over. */
export type Handler = (happening: Happening) => void;

/** Columns of the units that the event happens to, by the names of their kind; `all` is every one. */
export function columnsOf({ event }: Happening, names: readonly string[]): number[] {
  if (event.unit === 'all') return names.map((_, k) => k);
  const k = names.indexOf(event.unit);
  return k < 0 ? [] : [k];
}

/** The event's amount, on the way from `normal` to it along the ramp; `normal` again when it is over. */
export function reached({ event, along }: Happening, normal: number): number {
  return normal + along * ((event.amount ?? normal) - normal);
}

/** Does the event begin (its first moment), or does it go on or end? For the log: a ramp is told once. */
export function isFirst({ event, along }: Happening): boolean {
  return along > 0 && (event.over_s === null || along <= 1 / rampParts);
}

/** Parts in which a ramp comes. */
export const rampParts = 64;
