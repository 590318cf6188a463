/**
 * How much of its demand each sled may draw: the one place where all that holds a sled back meets.
 *
 *   allowed = on · min(brake, forced, throttle)
 * `on` belongs to the sled's guard (0 off, rising after a restart), `brake` to the supervisor's power brake,
 * `forced` to a brake that the scenario states, `throttle` to the sled's own answer to a low voltage. The least
 * of the last three counts, since each asks for a share of the same demand.
 */
import type { Site } from '../site.ts';

export class SledPower {
  readonly on: Float64Array;
  readonly brake: Float64Array;
  readonly forced: Float64Array;
  readonly throttle: Float64Array;
  private readonly site: Site;

  constructor(site: Site) {
    this.site = site;
    const whole = (): Float64Array => new Float64Array(site.sleds.count).fill(1);
    this.on = whole();
    this.brake = whole();
    this.forced = whole();
    this.throttle = whole();
  }

  /** Commands sled k. Returns how hard that kicks the bus: change of power slope [W/s]. */
  command(k: number): number {
    const allowed = this.on[k]! * Math.min(this.brake[k]!, this.forced[k]!, this.throttle[k]!);
    return this.site.sleds.allow(k, allowed);
  }
}
