/**
 * How much power charging may take, and who gets it.
 *
 *   room = min(cabinet's budget,
 *              charge now + Σ rated − Σ v i over the shelves that run,
 *              charge now + (a √3 V I PF − P_ac)/g for every feeder)
 * with a the share of a feeder's breaker that charging may fill, P_ac what the feeder gives now, g the part of what
 * the bus asks more that falls on the feeder: its running shelves over all, as they share per unit. All are of one
 * age: with the charge taken from another moment than the power that contains it, the sum would hunt.
 */

/** What the cabinet shows of itself at one moment. */
export interface Draw {
  /** Power that all charging shelves take from the bus [W]. */
  readonly charge_W: number;
  /** Rated and present output of the rectifier shelves that run [W]. */
  readonly rated_W: number;
  readonly output_W: number;
  readonly feeders: readonly FeederDraw[];
}

export interface FeederDraw {
  /** Power that charging may fill it up to, and what it gives now [W]. */
  readonly allowed_W: number;
  readonly drawn_W: number;
  /** Rated output of its running shelves [W]. */
  readonly rated_W: number;
}

/** Power that charging may take in all [W], and what holds it there. */
export function chargeRoom(draw: Draw, budget_W: number): { readonly room_W: number; readonly by: string } {
  const { charge_W, rated_W, output_W, feeders } = draw;
  let room_W = budget_W;
  let by = "the cabinet's budget";
  const shelves = charge_W + rated_W - output_W;
  if (shelves < room_W) {
    room_W = shelves;
    by = "the shelves' rating";
  }
  for (const feeder of feeders) {
    if (feeder.rated_W <= 0) continue;
    const free = charge_W + ((feeder.allowed_W - feeder.drawn_W) * rated_W) / feeder.rated_W;
    if (free < room_W) {
      room_W = free;
      by = 'the feeders';
    }
  }
  return { room_W: room_W > 0 ? room_W : 0, by };
}

/** Divides `room_W` over what each asks for: nobody gets more than asked, all others the same. */
export function divide(room_W: number, asked_W: readonly number[]): number[] {
  const order = asked_W.map((_, k) => k).sort((a, b) => asked_W[a]! - asked_W[b]! || a - b);
  const granted = asked_W.map(() => 0);
  let left = room_W;
  order.forEach((k, place) => {
    const part = Math.min(asked_W[k]!, left / (order.length - place));
    granted[k] = part;
    left -= part;
  });
  return granted;
}
