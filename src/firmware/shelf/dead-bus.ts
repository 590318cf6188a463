/** Nobody holds the bus any more: found on the supervisor's samples, told once, with who went last and why each did. */
import type { Site } from '../site.ts';
import type { LostShelves } from './lost-shelves.ts';

/** Without any output stage for this long, nothing holds the bus any more [s]. */
const dead_s = 0.05;

/** When the last shelf went, which it was, and why each did. */
export interface Dead {
  readonly tick: number;
  readonly last: string;
  readonly cause: string;
}

export class DeadBus {
  /** Set once nothing holds the bus any more. */
  dead: Dead | null = null;
  private since = Number.NaN;
  private readonly site: Site;
  private readonly lost: LostShelves;
  private readonly isBatteryComing: () => boolean;

  /** `isBatteryComing`: a battery shelf is about to carry. */
  constructor(site: Site, lost: LostShelves, isBatteryComing: () => boolean) {
    this.site = site;
    this.lost = lost;
    this.isBatteryComing = isBatteryComing;
  }

  /** Every rectifier shelf is out at `tick`, those of `standing`: does another output stage hold the bus, or come to? */
  watch(tick: number, standing: readonly number[]): void {
    const { shelves, batteries, log, tick_s } = this.site;
    if (shelves.isAnyRunning() || batteries.isAnyRunning() || this.isBatteryComing()) {
      this.since = Number.NaN;
      return;
    }
    if (Number.isNaN(this.since)) this.since = tick;
    if (this.dead !== null || (tick - this.since) * tick_s < dead_s) return;
    const { name, tick: at } = this.lost.lastOf(standing);
    const cause = `the bus collapsed: no output stage is left to hold it${this.lost.words(standing)}`;
    this.dead = { tick: at, last: name, cause };
    log.note(name, 'no-source', `no output stage is left to hold the bus; ${name} was the last`);
  }
}
