/**
 * What each tray is told: what it can do of what is asked of it, and what held it where that is less, past the dead time
 * of a sign change; a stuck tray holds what it holds.
 */
import type { TrayPorts } from '../../devices/tray/tray-ports.ts';
import { SpanChoice } from '../../events/span-choice.ts';
import type { Site } from '../site.ts';
import type { ChargeCommand } from './charge-law.ts';
import { SignPause } from './sign-pause.ts';
import { isStrained, type TrayLimit, trayLimit, trayLimits } from './tray-reach.ts';
import type { TraySample } from './tray-sample.ts';

export class TrayCommands {
  private readonly site: Site;
  private readonly trays: TrayPorts;
  /** 1 where a tray cannot give what is asked of it, as was last told. */
  private readonly tapered: Uint8Array;
  private taperedCount = 0;
  private readonly limits: readonly SpanChoice<'at-limit', TrayLimit>[];
  /** Power that a stuck tray holds [W]; NaN for one that obeys. */
  private readonly stuck_W: Float64Array;
  private stuckCount = 0;
  private readonly pause: SignPause;

  constructor(site: Site) {
    const { trays, log } = site;
    this.site = site;
    this.trays = trays;
    this.tapered = new Uint8Array(trays.count);
    this.limits = trays.names.map((name) => new SpanChoice(log.spans, 'at-limit', name, trayLimits));
    this.stuck_W = new Float64Array(trays.count).fill(Number.NaN);
    this.pause = new SignPause(
      trays.ratings.columns.dead_time_s.map((dead_s) => site.ticks(dead_s)),
      log,
    );
  }

  /** Every tray takes what it is given as it is, and what held one to less has been told. */
  get isStraight(): boolean {
    return this.taperedCount === 0 && this.stuckCount === 0 && !this.pause.any;
  }

  /**
   * Tells each tray on line what it can do of what is asked of it, on a sample of its voltages. Returns how hard that
   * kicks [W/s].
   */
  ask({ asked_W, given_W }: ChargeCommand, isOnLine: Uint8Array, sample: TraySample, tick: number): number {
    const { trays, tapered, stuck_W, pause } = this;
    const { capacitor_V, bus_V } = sample;
    let kick = 0;
    for (let k = 0; k < isOnLine.length; k++) {
      if (isOnLine[k] === 0) continue;
      const given = given_W[k]!;
      // One that gives what is asked of it, as before, has nothing to tell.
      if (given !== asked_W[k] || tapered[k] === 1)
        this.noteHeld(k, asked_W[k]!, given, capacitor_V[k]!, bus_V[k]!);
      const stuck = stuck_W[k]!;
      kick += trays.command(k, Number.isNaN(stuck) ? pause.pass(k, given, tick) : stuck);
    }
    return kick;
  }

  /** Whether tray k is held to less than what is asked of it, and by what. */
  private noteHeld(k: number, asked: number, given: number, u: number, v: number): void {
    const clipped = given !== asked;
    this.limits[k]!.hold(clipped ? trayLimit(this.trays.ratings, k, u, v, asked > 0) : null);
    if (clipped !== (this.tapered[k] === 1)) this.noteTaper(k, clipped, asked, given, u);
  }

  private noteTaper(k: number, clipped: boolean, asked: number, given: number, u: number): void {
    const { log } = this.site;
    this.tapered[k] = clipped ? 1 : 0;
    this.taperedCount += clipped ? 1 : -1;
    const name = this.trays.names[k]!;
    if (!clipped) {
      log.note(name, 'limit-off', 'follows its command again');
      return;
    }
    const text = `asked for ${(asked / 1e3).toFixed(1)} kW, can give ${(given / 1e3).toFixed(1)} kW`;
    const strained = asked > 0 && isStrained(this.trays.ratings, k, u);
    log.note(name, strained ? 'tray-infeasible' : 'tray-full', text);
  }

  /** Every tray that obeys goes to zero. */
  zero(): void {
    for (let k = 0; k < this.trays.count; k++) {
      this.limits[k]!.hold(null);
      if (Number.isNaN(this.stuck_W[k]!)) this.trays.command(k, 0);
    }
  }

  /** Tray k leaves. */
  takeOut(k: number, what: 'taken out' | 'tripped'): void {
    this.site.log.begins('out', this.trays.names[k]!, what);
    this.limits[k]!.hold(null);
    this.trays.takeOut(k);
    this.holdAt(k, Number.NaN);
  }

  /** Tray k holds this power whatever it is told [W]; null: it obeys again. */
  stick(k: number, power_W: number | null): void {
    if (!this.trays.isAlive(k)) return;
    this.holdAt(k, power_W ?? Number.NaN);
    if (power_W !== null) this.trays.command(k, power_W);
  }

  private holdAt(k: number, power_W: number): void {
    const held = Number.isNaN(this.stuck_W[k]!) ? 0 : 1;
    this.stuckCount += (Number.isNaN(power_W) ? 0 : 1) - held;
    this.stuck_W[k] = power_W;
  }
}
