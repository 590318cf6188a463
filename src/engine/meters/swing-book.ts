/**
 * Sustained swings as they are found: those of one channel and scale that turn alike and have the same driver are one
 * entry, with the largest of them and the time of all. Bounded: of each channel and scale the largest entries stay. Of
 * what several scales have seen alike the finest is read.
 */
import type { SustainedSwing } from '../result.ts';
import type { Growth } from './growth.ts';
import type { HeldSwing } from './sustained-swing.ts';

const mostKept = 8;

/** Frequencies and sizes within this of each other are the same oscillation. */
const alike = 0.2;

interface SwingEntry {
  largest: HeldSwing;
  from: number;
  to: number;
  held: number;
  count: number;
  grew: Growth | null;
  readonly byLoad: boolean;
}

export class SwingBook {
  /** By scale, then channel. */
  private readonly entries: readonly SwingEntry[][];

  constructor(places: number) {
    this.entries = Array.from({ length: places }, () => []);
  }

  add(place: number, found: HeldSwing, grew: Growth | null, byLoad: boolean): void {
    const own = this.entries[place]!;
    const same = own.find(
      (entry) => entry.byLoad === byLoad && isAlike(entry.largest.frequency_Hz, found.frequency_Hz),
    );
    const { from, to } = found;
    if (same === undefined) {
      own.push({ largest: found, from, to, held: to - from, count: 1, grew, byLoad });
      if (own.length > mostKept) {
        own.sort((a, b) => b.largest.swing - a.largest.swing);
        own.length = mostKept;
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
    return channels.flatMap((channel, c) =>
      this.distinct(c, channels.length).map(({ largest, from, to, held, count, grew, byLoad }) => ({
        channel,
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

  /** Entries of channel c, from the finest scale up, each oscillation once. */
  private distinct(c: number, channels: number): SwingEntry[] {
    const kept: SwingEntry[] = [];
    for (let place = c; place < this.entries.length; place += channels) {
      for (const entry of this.entries[place]!) {
        const { largest } = entry;
        const known = kept.some(
          (k) =>
            isAlike(k.largest.frequency_Hz, largest.frequency_Hz) &&
            k.largest.swing >= (1 - alike) * largest.swing,
        );
        if (!known) kept.push(entry);
      }
    }
    return kept;
  }
}

function isAlike(a: number, b: number): boolean {
  return Math.abs(a - b) <= alike * b;
}
