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
import type { Bars } from '../devices/bar/bar.ts';
import type { Capacitors } from '../devices/capacitor/capacitor.ts';
import type { Sleds } from '../devices/sled/sled.ts';
import type { Log } from '../events/log.ts';
import type { SledGuard, SledOff } from './sled-guard.ts';
import type { Plant, Watcher } from './task.ts';

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
  private readonly tick_s: number;
  private readonly bars: Bars;
  private readonly capacitors: Capacitors;
  private readonly sleds: Sleds;
  private readonly guard: SledGuard;
  private readonly plant: Plant;
  private readonly log: Log;

  constructor(
    places: readonly SledPlace[],
    tick_s: number,
    devices: { readonly bars: Bars; readonly capacitors: Capacitors; readonly sleds: Sleds },
    guard: SledGuard,
    plant: Plant,
    log: Log,
  ) {
    this.places = places;
    this.tick_s = tick_s;
    this.bars = devices.bars;
    this.capacitors = devices.capacitors;
    this.sleds = devices.sleds;
    this.own_ohm = Float64Array.from(places, ({ contact }) => this.bars.resistance_ohm[contact]!);
    this.chargingSince = new Float64Array(places.length).fill(Number.NaN);
    this.guard = guard;
    this.plant = plant;
    this.log = log;
  }

  /** Current through the contact of sled k [A]. */
  current_A(k: number): number {
    return this.plant.x[this.bars.offset + this.places[k]!.contact]!;
  }

  /** Nodes at both ends of the contact of sled k. */
  ends(k: number): readonly [rack: number, sled: number] {
    const { contact } = this.places[k]!;
    return [this.bars.from[contact]!, this.bars.to[contact]!];
  }

  /** Has sled k left the bus? */
  isOut(k: number): boolean {
    return this.bars.open[this.places[k]!.contact] === 1;
  }

  /** The converter of sled k stops and the sled is no longer minded; its contact stays as it is. */
  abandon(k: number, what: SledOff): void {
    this.guard.switchOff(k, this.isOut(k) ? null : what);
    this.sleds.setPresent(k, false);
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
    const { capacitors, places, plant, sleds } = this;
    let energy = 0;
    for (const c of places[k]!.capacitors) {
      energy += capacitors.energy_J(c, plant.x);
      plant.x[capacitors.offset + c] = 0;
    }
    plant.v[sleds.node[k]!] = 0;
    plant.x[sleds.offset + k] = 0;
    sleds.short(k, 0);
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

  run(tick: number): number {
    if (this.charging === 0) return 0;
    for (let k = 0; k < this.places.length; k++) {
      if (Number.isNaN(this.chargingSince[k]!) || !this.limit(k)) continue;
      const took_s = (tick - this.chargingSince[k]!) * this.tick_s;
      this.chargingSince[k] = Number.NaN;
      this.charging--;
      this.sleds.setPresent(k, true);
      this.guard.await(k);
      const v = this.plant.v[this.sleds.node[k]!]!.toFixed(2);
      this.log.note(
        this.sleds.names[k]!,
        'sled-charged',
        `capacitors at ${v} V after ${(took_s * 1e3).toFixed(1)} ms`,
      );
    }
    return 0;
  }

  /** Sets the limiter of sled k for the voltage across it; true when the contact alone limits less. */
  private limit(k: number): boolean {
    const { bars, plant, places } = this;
    const { contact, inrush_A } = places[k]!;
    const across = plant.v[bars.from[contact]!]! - plant.v[bars.to[contact]!]!;
    const R = Math.abs(across) / inrush_A;
    const own = this.own_ohm[k]!;
    this.setContact(k, R > own ? R : own, false);
    // The limiter's current settles within L/R, less than a microsecond: it stands at once.
    if (R > own) plant.x[bars.offset + contact] = across / R;
    return R <= own;
  }

  private setContact(k: number, resistance_ohm: number, open: boolean): void {
    const { contact } = this.places[k]!;
    this.bars.setResistance(contact, resistance_ohm);
    this.bars.setOpen(contact, open);
    this.plant.restamp();
  }
}
