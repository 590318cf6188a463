/**
 * Hot swap: sleds that leave the bus and come back. A sled taken out opens its contact. One that is plugged in
 * has empty input capacitors; its inrush limiter holds the charging current until they stand at the bus, and only
 * then does the sled's guard begin to wait for the restart.
 *
 *   limiter: R = (v_rack − v_sled)/I_inrush, set anew at every sample, never below the contact's own R
 *   done when R has come down to the contact's own
 * Between two samples the current falls with the rising sled voltage, by less than ΔT I/(C ΔV). The limiter's heat
 * is the contact bar's. Not modelled: the limiter's own thermal limit, a limiter that retries.
 */
import type { Site } from '../site.ts';
import type { Watcher } from '../task.ts';
import type { SledGuard, SledOff } from './sled-guard.ts';

/** What a sled hangs on and holds. */
export interface SledPlace {
  /** Column of its contact bar and of its input capacitors. */
  readonly contact: number;
  readonly capacitors: readonly number[];
  readonly inrush_A: number;
}

export class HotSwap implements Watcher {
  readonly name = 'hot swap';
  private readonly places: readonly SledPlace[];
  /** The contacts' own resistance [Ω]. */
  private readonly own_ohm: Float64Array;
  /** Sleds whose capacitors are charging, by when they were plugged in [tick]; NaN: none. */
  private readonly chargingSince: Float64Array;
  private charging = 0;
  private readonly site: Site;
  private readonly guard: SledGuard;

  constructor(site: Site, places: readonly SledPlace[], guard: SledGuard) {
    this.site = site;
    this.places = places;
    this.own_ohm = Float64Array.from(places, ({ contact }) => site.bars.resistance_ohm(contact));
    this.chargingSince = new Float64Array(places.length).fill(Number.NaN);
    this.guard = guard;
  }

  /** Current through the contact of sled k [A]. */
  current_A(k: number): number {
    return this.site.bars.current_A(this.places[k]!.contact);
  }

  /** Nodes at both ends of the contact of sled k. */
  ends(k: number): readonly [rack: number, sled: number] {
    return this.site.bars.ends(this.places[k]!.contact);
  }

  /** Has sled k left the bus? */
  isOut(k: number): boolean {
    return this.site.bars.isOpen(this.places[k]!.contact);
  }

  /** The converter of sled k stops and the sled is no longer minded; its contact stays as it is. */
  abandon(k: number, what: SledOff): void {
    this.guard.switchOff(k, this.isOut(k) ? null : what);
    this.site.sleds.setPresent(k, false);
    if (Number.isNaN(this.chargingSince[k]!)) return;
    this.chargingSince[k] = Number.NaN;
    this.charging--;
  }

  /** The contact of sled k opens. */
  unplug(k: number, what: SledOff): void {
    this.abandon(k, what);
    this.setContact(k, this.own_ohm[k]!, true);
  }

  /** A sled with empty capacitors comes to place k. Returns the energy that the old ones still held [J]. */
  plug(k: number, tick: number): number {
    const { capacitors, sleds } = this.site;
    let energy = 0;
    for (const c of this.places[k]!.capacitors) energy += capacitors.replace(c);
    sleds.replace(k);
    this.chargingSince[k] = tick;
    this.charging++;
    this.limit(k);
    return energy;
  }

  isBusy(): boolean {
    return this.charging > 0;
  }

  isMissed(): boolean {
    return false;
  }

  /** Waits for what events and firmware change alone. */
  waitFor(): void {}

  run(tick: number): number {
    if (this.charging === 0) return 0;
    const { sleds, log, tick_s } = this.site;
    for (let k = 0; k < this.places.length; k++) {
      if (Number.isNaN(this.chargingSince[k]!) || !this.limit(k)) continue;
      const took_s = (tick - this.chargingSince[k]!) * tick_s;
      this.chargingSince[k] = Number.NaN;
      this.charging--;
      sleds.setPresent(k, true);
      this.guard.await(k);
      const v = sleds.input_V(k).toFixed(2);
      log.note(sleds.names[k]!, 'sled-charged', `capacitors at ${v} V after ${(took_s * 1e3).toFixed(1)} ms`);
    }
    return 0;
  }

  /** Sets the limiter of sled k for the voltage across it; true when the contact alone limits less. */
  private limit(k: number): boolean {
    const { bars } = this.site;
    const { contact, inrush_A } = this.places[k]!;
    const across = bars.across_V(contact);
    const R = Math.abs(across) / inrush_A;
    const own = this.own_ohm[k]!;
    this.setContact(k, R > own ? R : own, false);
    // The limiter's current settles within L/R, less than a microsecond: it stands at once.
    if (R > own) bars.jump(contact, across / R);
    return R <= own;
  }

  private setContact(k: number, resistance_ohm: number, open: boolean): void {
    this.site.bars.command(this.places[k]!.contact, resistance_ohm, open);
  }
}
