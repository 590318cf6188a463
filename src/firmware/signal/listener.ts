/** How a task notices that its signal has stayed away: the value it holds is older than it should ever be. */

import type { Site } from '../site.ts';
import type { Signal } from './signal.ts';

export class Listener {
  private readonly who: string;
  private readonly signal: Signal;
  /** Age beyond the latency at which the signal counts as lost [ticks]. */
  private readonly limit: number;
  private readonly site: Site;
  private lost = false;

  constructor(site: Site, who: string, signal: Signal, limit_s: number) {
    this.site = site;
    this.who = who;
    this.signal = signal;
    this.limit = site.ticks(limit_s);
  }

  /** Ask after reading the signal. Notes when it goes and when it comes back. */
  isLost(): boolean {
    const { overdue } = this.signal;
    const lost = overdue > this.limit;
    if (lost !== this.lost) {
      const { log, tick_s } = this.site;
      this.lost = lost;
      log.spans.track('unheard', this.who, '').set(lost);
      const text = lost
        ? `nothing new for ${(overdue * tick_s * 1e3).toFixed(1)} ms beyond the latency`
        : 'hears its signal again';
      log.note(this.who, lost ? 'signal-lost' : 'signal-back', text);
    }
    return lost;
  }
}
