/**
 * Sustained swings as they are found: those of one channel that turn alike and have the same driver are one entry,
 * with the largest of them and the time of all. Bounded: of each channel the largest entries stay.
 */
import type { SustainedSwing } from '../result.ts';
import type { Growth } from './growth.ts';
import type { Sustained } from './sustained.ts';

const mostPerChannel = 8;

/** Frequencies within this of each other are the same oscillation. */
const alike = 0.2;

interface Entry {
  largest: Sustained;
  from: number;
  to: number;
  held: number;
  count: number;
  grew: Growth | null;
  readonly byLoad: boolean;
}

export class SwingBook {
  private readonly entries: readonly Entry[][];

  constructor(channels: number) {
    this.entries = Array.from({ length: channels }, () => []);
  }

  add(c: number, found: Sustained, grew: Growth | null, byLoad: boolean): void {
    const own = this.entries[c]!;
    const same = own.find(
      (entry) =>
        entry.byLoad === byLoad &&
        Math.abs(entry.largest.frequency_Hz - found.frequency_Hz) <= alike * found.frequency_Hz,
    );
    const { from, to } = found;
    if (same === undefined) {
      own.push({ largest: found, from, to, held: to - from, count: 1, grew, byLoad });
      if (own.length > mostPerChannel) {
        own.sort((a, b) => b.largest.swing - a.largest.swing);
        own.length = mostPerChannel;
      }
      return;
    }
    if (found.swing > same.largest.swing) same.largest = found;
    same.to = to;
    same.held += to - from;
    same.count++;
    if (grew !== null && grew.doublings > (same.grew?.doublings ?? 0)) same.grew = grew;
  }

  reading(channels: readonly string[], tick_s: number): SustainedSwing[] {
    return this.entries.flatMap((own, c) =>
      own.map(({ largest, from, to, held, count, grew, byLoad }) => ({
        channel: channels[c]!,
        swing: largest.swing,
        frequency_Hz: largest.frequency_Hz,
        rate_per_s: largest.rate_per_s,
        at_s: largest.from * tick_s,
        from_s: from * tick_s,
        to_s: to * tick_s,
        held_s: held * tick_s,
        count,
        grew: grew && { frequency_Hz: grew.frequency_Hz, rate_per_s: grew.rate_per_s },
        driven_by: byLoad ? 'load' : null,
      })),
    );
  }
}
