/** How a task notices that its signal has stayed away: the value it holds is older than it should ever be. */
import type { Log } from '../events/log.ts';
import type { Signal } from './signal.ts';

export class Listener {
  private readonly who: string;
  private readonly signal: Signal;
  /** Age beyond the latency at which the signal counts as lost [ticks]. */
  private readonly limit: number;
  private readonly tick_s: number;
  private readonly log: Log;
  private lost = false;

  constructor(who: string, signal: Signal, limit_s: number, tick_s: number, log: Log) {
    this.who = who;
    this.signal = signal;
    this.limit = Math.round(limit_s / tick_s);
    this.tick_s = tick_s;
    this.log = log;
  }

  /** Ask after reading the signal. Notes when it goes and when it comes back. */
  isLost(): boolean {
    const { overdue } = this.signal;
    const lost = overdue > this.limit;
    if (lost !== this.lost) {
      this.lost = lost;
      this.log.spans.track('unheard', this.who, '').set(lost);
      const text = lost
        ? `nothing new for ${(overdue * this.tick_s * 1e3).toFixed(1)} ms beyond the latency`
        : 'hears its signal again';
      this.log.note(this.who, lost ? 'signal-lost' : 'signal-back', text);
    }
    return lost;
  }
}
