/**
 * What keeps the bulk of a shelf from rising without end when its load goes at once and its slow power loop is
 * still letting power in: above `bulk_voltage_max` the input stage stops, below `bulk_voltage_resume` it works on.
 *
 *   p_sat = 0 from the sample at which v_b > V_bmax, until v_b < V_bres
 *
 * The bulk overshoots V_bmax by no more than one supervision period and the power's own lag let in:
 * C_b (v_b² − V_bmax²)/2 ≤ P (period + τ_pfc). The threshold is ours (assumed: capacitors rated for 450 V).
 */
import type { Moment } from '../../devices/plant.ts';
import type { Waits } from '../../devices/waits.ts';
import type { ShelfValues } from '../../scenario/parameters/shelf.ts';
import type { LineLevel } from '../signal/line-level.ts';
import type { Site } from '../site.ts';
import type { Watcher } from '../task.ts';

export class BulkGuard implements Watcher {
  readonly name = 'bulk guard';
  private readonly stopped: Uint8Array;
  private readonly site: Site;
  private readonly lineLevel: LineLevel;
  private readonly most_V: Float64Array;
  private readonly resume_V: Float64Array;

  constructor(site: Site, shelves: readonly ShelfValues[], lineLevel: LineLevel) {
    this.site = site;
    this.lineLevel = lineLevel;
    this.stopped = new Uint8Array(shelves.length);
    this.most_V = Float64Array.from(shelves, (s) => s.bulk_voltage_max_V);
    this.resume_V = Float64Array.from(shelves, (s) => s.bulk_voltage_resume_V);
  }

  /** Nothing is counted or waited for: a step that jumped over a threshold is taken again, that is enough. */
  isBusy(): boolean {
    return this.asks();
  }

  isMissed(end: Moment): boolean {
    return this.asks(end);
  }

  waitFor(waits: Waits): void {
    const { stopped, most_V, resume_V } = this;
    for (let k = 0; k < most_V.length; k++) {
      if (stopped[k] === 0) waits.bulkAbove(k, most_V[k]!);
      else waits.bulkBelow(k, resume_V[k]!);
    }
  }

  private asks(at?: Moment): boolean {
    const { stopped, most_V, resume_V } = this;
    const { intakes } = this.site;
    for (let k = 0; k < most_V.length; k++) {
      const bulk_V = intakes.bulk_V(k, at);
      if (stopped[k] === 0 ? bulk_V > most_V[k]! : bulk_V < resume_V[k]!) return true;
    }
    return false;
  }

  run(): number {
    const { intakes, log } = this.site;
    let kick = 0;
    for (let k = 0; k < intakes.count; k++) {
      const bulk_V = intakes.bulk_V(k);
      const stop = this.stopped[k] === 0;
      if (stop ? bulk_V <= this.most_V[k]! : bulk_V >= this.resume_V[k]!) continue;
      this.stopped[k] = stop ? 1 : 0;
      this.lineLevel.hold(k, stop);
      log.spans.track('at-limit', intakes.names[k]!, 'bulk voltage').set(stop);
      const words = stop ? 'the input stage stops' : 'the input stage works on';
      log.note(intakes.names[k]!, 'bulk-high', `bulk at ${bulk_V.toFixed(1)} V: ${words}`);
      kick = Number.POSITIVE_INFINITY;
    }
    return kick;
  }
}
