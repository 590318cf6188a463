/**
 * What an input stage can take from a line that sags, swells or has lost a phase, and when it gives the line up.
 * At its current limit the power follows the line voltage; of single-phase modules spread over three phases a
 * third go dark with one, and the other two phases carry what is left.
 *
 *   P_max(V) = P_max · min(1, V/V_nominal) · f      I_line = P_ac/(√3 V PF f)      f = 2/3 with a phase lost, else 1
 *
 * On a feeder that gives way V is what the shelves leave of it: device and step take that part (`supply.ts`), and
 * `feeder-watch.ts` says how low it is; the events of such a feeder set its open-circuit voltage.
 * Below `brown_out` of nominal for its time the shelf counts AC as lost; above `brown_in` as back. Both are told to
 * trays and batteries after the signal's latency.
 * Not modelled: the DC stages of the modules on the lost phase, which stop one by one as their own bulk empties (the
 * shelf's bulk is one); cut-out at a line too high. A bulk that is too high holds the power at 0 (bulk-guard.ts).
 */
import type { ShelfValues } from '../../scenario/parameters/shelf.ts';
import { acGone, type WalkIn } from '../shelf/walk-in.ts';
import type { Site } from '../site.ts';
import type { Watcher } from '../task.ts';
import type { AcSignal } from './ac-signal.ts';

const phaseLost_ratio = 2 / 3;

export class LineLevel implements Watcher {
  readonly name = 'line level';
  private readonly ratio: Float64Array;
  private readonly sensed: Float64Array;
  private readonly phases: Float64Array;
  private readonly brownAt: Float64Array;
  private readonly brown: Uint8Array;
  /** Held at no power by the bulk guard. */
  private readonly held: Uint8Array;
  private pending = 0;
  private readonly site: Site;
  private readonly shelves: readonly ShelfValues[];
  private readonly acSignal: AcSignal;
  private readonly walkIn: WalkIn;

  constructor(site: Site, shelves: readonly ShelfValues[], acSignal: AcSignal, walkIn: WalkIn) {
    const { intakes } = site;
    this.site = site;
    this.shelves = shelves;
    this.acSignal = acSignal;
    this.walkIn = walkIn;
    this.ratio = new Float64Array(intakes.count).fill(1);
    this.sensed = new Float64Array(intakes.count).fill(1);
    this.phases = new Float64Array(intakes.count).fill(1);
    this.brownAt = new Float64Array(intakes.count).fill(Number.POSITIVE_INFINITY);
    this.brown = new Uint8Array(intakes.count);
    this.held = new Uint8Array(intakes.count);
  }

  /** Line voltage of shelf k over nominal, from `tick` on, of a stiff line. */
  set(k: number, ratio: number, tick: number): void {
    this.ratio[k] = ratio;
    this.refresh(k);
    this.sense(k, ratio, tick);
  }

  /** Shelf k counts AC as lost. */
  isBrown(k: number): boolean {
    return this.brown[k] === 1;
  }

  /** Shelf k sees this share of nominal from `tick` on: counts a brown-out, or takes the line back. */
  sense(k: number, ratio: number, tick: number): void {
    const s = this.shelves[k]!;
    this.sensed[k] = ratio;
    const counting = this.brownAt[k]! < Number.POSITIVE_INFINITY;
    if (ratio < s.brown_out_ratio && !this.brown[k]) {
      if (counting) return;
      this.brownAt[k] = tick + this.site.ticks(s.brown_out_time_s);
      this.pending++;
    } else if (counting) {
      this.brownAt[k] = Number.POSITIVE_INFINITY;
      this.pending--;
    } else if (this.brown[k] && ratio > s.brown_in_ratio) {
      this.brown[k] = 0;
      this.walkIn.restore(k, tick, acGone.brownOut);
      this.tell(k, tick, false);
    }
  }

  losePhase(k: number, lost: boolean): void {
    this.phases[k] = lost ? phaseLost_ratio : 1;
    this.site.intakes.losePhase(k, lost);
    this.refresh(k);
  }

  /** Takes nothing from the line, whatever it gives, until it is let go. */
  hold(k: number, held: boolean): void {
    this.held[k] = held ? 1 : 0;
    this.refresh(k);
  }

  /** Sets the limit of shelf k's input anew: the line or the shelf has changed. */
  refresh(k: number): void {
    const { intakes } = this.site;
    const given_W = intakes.limit_W(k) * Math.min(1, this.ratio[k]!) * this.phases[k]!;
    const line_V = intakes.nominalLine_V(k) * this.ratio[k]! * this.phases[k]!;
    intakes.commandLine(k, this.held[k] ? 0 : given_W, line_V);
  }

  isBusy(): boolean {
    return this.pending > 0;
  }

  isMissed(): boolean {
    return false;
  }

  /** Waits for what events and firmware change alone. */
  waitFor(): void {}

  run(tick: number): number {
    if (this.pending === 0) return 0;
    let kick = 0;
    for (let k = 0; k < this.shelves.length; k++) {
      if (tick < this.brownAt[k]!) continue;
      this.brownAt[k] = Number.POSITIVE_INFINITY;
      this.pending--;
      this.brown[k] = 1;
      this.walkIn.lose(k, tick, acGone.brownOut);
      this.tell(k, tick, true);
      // The power into the bulk falls at once, within its lag.
      kick = Number.POSITIVE_INFINITY;
    }
    return kick;
  }

  private tell(k: number, tick: number, lost: boolean): void {
    const { intakes, log, detection } = this.site;
    const name = intakes.names[k]!;
    const at = `line at ${(100 * this.sensed[k]!).toFixed(0)} %`;
    log.note(name, 'brown-out', lost ? `${at}: counts AC as lost` : `${at}: AC counts as back`);
    // A brown-out has its own time in place of the detection of a loss: only the latency is left.
    this.acSignal.tell(tick - detection, `${name} brown-out`, lost);
  }
}
