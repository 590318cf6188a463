/**
 * The AC-loss signal: what trays and battery shelves are told about the feeders, t_det + t_sig after it
 * happened, on the supervisor's own sample. Lost as soon as one feeder is lost; good when all are back.
 */
import type { Log } from '../events/log.ts';
import type { Task } from './task.ts';

export class AcSignal implements Task {
  readonly name = 'AC signal';
  /** As told: AC is lost. */
  lost = false;
  /** Tick at which it was last told good after a loss. */
  goodSince = 0;
  private readonly delay: number;
  private readonly pending: { readonly tick: number; readonly feeder: string; readonly lost: boolean }[] = [];
  private readonly dark = new Set<string>();
  private readonly log: Log;
  private readonly onChange: (lost: boolean, tick: number) => void;

  /** `delay` in ticks: detection and signal latency together. */
  constructor(delay: number, log: Log, onChange: (lost: boolean, tick: number) => void) {
    this.delay = delay;
    this.log = log;
    this.onChange = onChange;
  }

  /** A feeder went or came back at `tick`. */
  tell(tick: number, feeder: string, lost: boolean): void {
    this.pending.push({ tick: tick + this.delay, feeder, lost });
  }

  isBusy(): boolean {
    return this.pending.length > 0;
  }

  run(tick: number): number {
    while (this.pending.length > 0 && this.pending[0]!.tick <= tick) {
      const { feeder, lost } = this.pending.shift()!;
      if (lost) this.dark.add(feeder);
      else this.dark.delete(feeder);
    }
    const lost = this.dark.size > 0;
    if (lost !== this.lost) {
      this.lost = lost;
      if (!lost) this.goodSince = tick;
      this.log.note('AC', 'ac-signal', lost ? 'told: AC lost' : 'told: AC good');
      this.onChange(lost, tick);
    }
    return 0;
  }
}
