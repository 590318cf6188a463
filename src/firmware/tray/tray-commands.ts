/**
 * What each tray is told: what it can do of what is asked of it, and what held it where that is less, past the dead time
 * of a sign change; a stuck tray holds what it holds.
 */
import type { TrayPorts } from '../../devices/tray/tray-ports.ts';
import { SpanChoice } from '../../events/span-choice.ts';
import type { Site } from '../site.ts';
import { SignPause } from './sign-pause.ts';
import { isStrained, type TrayLimit, trayLimit, trayLimits } from './tray-reach.ts';

export class TrayCommands {
  private readonly site: Site;
  private readonly trays: TrayPorts;
  /** 1 where a tray cannot give what is asked of it, as was last told. */
  private readonly tapered: Uint8Array;
  private readonly limits: readonly SpanChoice<'at-limit', TrayLimit>[];
  /** Power that a stuck tray holds [W]; NaN for one that obeys. */
  private readonly stuck_W: Float64Array;
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

  /**
   * Tells tray k what it can do of what is asked of it; u, v: its capacitor and bus voltage. Returns how hard that kicks
   * [W/s].
   */
  ask(k: number, asked_W: number, given_W: number, u: number, v: number, tick: number): number {
    this.noteHeld(k, asked_W, given_W, u, v);
    const stuck = this.stuck_W[k]!;
    return this.trays.command(k, Number.isNaN(stuck) ? this.pause.pass(k, given_W, tick) : stuck);
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
    this.stuck_W[k] = Number.NaN;
  }

  /** Tray k holds this power whatever it is told [W]; null: it obeys again. */
  stick(k: number, power_W: number | null): void {
    if (!this.trays.isAlive(k)) return;
    this.stuck_W[k] = power_W ?? Number.NaN;
    if (power_W !== null) this.trays.command(k, power_W);
  }
}
