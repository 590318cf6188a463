/**
 * The power brake: the supervisor tells all sleds to hold their power to a share of their demand while the
 * cabinet cannot feed it.
 *
 *   raised    n or more shelves are out, or every battery shelf is at its reserve or empty while AC is lost or
 *             shelves walk in again
 *   told      t_lat after that, at all sleds alike: allowed ≤ level; the trays' smoothed load follows at once, or
 *             they would take up what the brake takes off and hold the shelves at their limit for τ_s
 *   released  neither holds any more for t_hold; then the share rises to 1 along a ramp
 * A shelf is out when it has tripped, or when it has AC and has walked in and still does not run: one that waits
 * for AC or walks in is what batteries are for. Fitted where the level is below 1.
 */
import type { Waits } from '../../devices/waits.ts';
import type { BrakeValues } from '../../scenario/parameters/brake.ts';
import type { Site } from '../site.ts';
import type { SledPower } from '../sled/sled-power.ts';
import type { Watcher } from '../task.ts';

/** What the supervisor looks at. */
export interface BrakeSight {
  /** Shelves that are out. */
  shelvesOut(): number;
  /** AC is lost as told or walks in again, and no battery shelf has more than its reserve above the least charge. */
  areBatteriesSpent(reserve_ratio: number): boolean;
  /** The sleds are told now: trays must not smooth away what the brake takes off. */
  told(tick: number): void;
}

type BrakePhase = 'open' | 'raised' | 'held' | 'letting go';

export class Brake implements Watcher {
  readonly name = 'brake';
  private phase: BrakePhase = 'open';
  /** Tick at which the present phase began; of `letting go`, at which the ramp begins. */
  private since = 0;
  /** Tick from which no reason has held; NaN while one does. */
  private clearSince = Number.NaN;
  private readonly values: BrakeValues;
  private readonly ticks: { readonly [K in 'latency' | 'hold' | 'ramp']: number };
  private readonly sight: BrakeSight;
  private readonly site: Site;
  private readonly power: SledPower;

  constructor(site: Site, values: BrakeValues, sight: BrakeSight, power: SledPower) {
    this.site = site;
    this.values = values;
    this.sight = sight;
    this.power = power;
    this.ticks = {
      latency: site.ticks(values.latency_s),
      hold: site.ticks(values.hold_s),
      ramp: site.ticks(values.ramp_s),
    };
  }

  private isFitted(): boolean {
    return this.values.level_ratio < 1;
  }

  /** Why the brake must be on, or null. */
  private reason(): string | null {
    const out = this.sight.shelvesOut();
    if (out >= this.values.shelves_out_count) return `${out} shelves out`;
    if (this.sight.areBatteriesSpent(this.values.reserve_ratio))
      return 'the batteries are spent and AC does not carry yet';
    return null;
  }

  isBusy(): boolean {
    if (!this.isFitted()) return false;
    if (this.phase === 'open' || this.phase === 'held') {
      return (this.reason() !== null) !== (this.phase === 'held') || !Number.isNaN(this.clearSince);
    }
    return true;
  }

  isMissed(): boolean {
    return false;
  }

  /** Where it is fitted it looks at shelves and batteries itself. */
  waitFor(waits: Waits): void {
    if (this.isFitted()) waits.always();
  }

  run(tick: number): number {
    if (!this.isFitted()) return 0;
    const reason = this.reason();
    const level = `${(this.values.level_ratio * 100).toFixed(0)} % of the demand`;
    switch (this.phase) {
      case 'open':
        if (reason === null) return 0;
        this.enter('raised', tick);
        this.site.log.note('sleds', 'brake-raised', `power brake raised: ${reason}`);
        return 0;
      case 'raised':
        if (tick - this.since < this.ticks.latency) return 0;
        this.enter('held', tick);
        this.clearSince = Number.NaN;
        this.site.log.note('sleds', 'brake-on', `told to hold to ${level}`);
        this.sight.told(tick);
        return this.command(this.values.level_ratio);
      case 'held':
        if (reason !== null) this.clearSince = Number.NaN;
        else if (Number.isNaN(this.clearSince)) this.clearSince = tick;
        if (!(tick - this.clearSince >= this.ticks.hold)) return 0;
        this.enter('letting go', tick + this.ticks.latency);
        this.clearSince = Number.NaN;
        this.site.log.note('sleds', 'brake-off', 'power brake released');
        return 0;
      case 'letting go': {
        if (reason !== null) {
          this.enter('raised', tick);
          this.site.log.note('sleds', 'brake-raised', `power brake raised again: ${reason}`);
          return 0;
        }
        const { level_ratio } = this.values;
        const along = tick < this.since ? 0 : Math.min(1, (tick - this.since) / this.ticks.ramp);
        if (along >= 1) this.enter('open', tick);
        return this.command(along >= 1 ? 1 : level_ratio + along * (1 - level_ratio));
      }
    }
  }

  private enter(phase: BrakePhase, tick: number): void {
    this.phase = phase;
    this.since = tick;
  }

  private command(share: number): number {
    let kick = 0;
    this.site.log.spans.track('at-limit', 'sleds', 'brake').set(share < 1);
    for (let k = 0; k < this.site.sleds.count; k++) {
      this.power.brake[k] = share;
      kick += this.power.command(k);
    }
    return kick;
  }
}
