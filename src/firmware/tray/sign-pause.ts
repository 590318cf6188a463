/**
 * Dead time of the trays' converters: when a command changes its sign it holds at zero for `dead_time` first. Counted
 * on the smoothing task's own runs, so it lasts a whole number of its periods, the dead time or up to one more.
 */
import type { Log } from '../../events/log.ts';

export class SignPause {
  /** Dead time of each tray [ticks]. */
  private readonly dead: Float64Array;
  private readonly sign: Int8Array;
  private readonly until: Float64Array;
  private readonly log: Log;
  /** Some tray has a dead time. */
  readonly any: boolean;
  private pausing = 0;

  constructor(dead: Float64Array, log: Log) {
    this.dead = dead;
    this.log = log;
    this.any = dead.some((ticks) => ticks > 0);
    this.sign = new Int8Array(dead.length);
    this.until = new Float64Array(dead.length).fill(Number.NaN);
  }

  /** The command as tray k takes it at `tick` [W]. */
  pass(k: number, command: number, tick: number): number {
    if (!this.any || this.dead[k] === 0) return command;
    const sign = command > 0 ? 1 : command < 0 ? -1 : 0;
    if (sign === 0) return command;
    if (this.sign[k] === 0 || sign === this.sign[k]) {
      this.sign[k] = sign;
      this.end(k);
      return command;
    }
    if (Number.isNaN(this.until[k]!)) {
      this.until[k] = tick + this.dead[k]!;
      if (this.pausing++ === 0)
        this.log.note('trays', 'tray-turn', 'turn over: held at zero for their dead time');
    }
    if (tick < this.until[k]!) return 0;
    this.sign[k] = sign;
    this.end(k);
    return command;
  }

  private end(k: number): void {
    if (Number.isNaN(this.until[k]!)) return;
    this.until[k] = Number.NaN;
    this.pausing--;
  }
}
