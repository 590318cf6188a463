/**
 * The way of a signal's samples to their reader when it is not what it should be: lost, frozen, late, jittering,
 * scaled. Samples carry the delay they were sent with; the reader takes the newest that has arrived.
 *
 *   a sample taken b periods ago has arrived when   b T + (d mod T) ≥ d + its own delay
 *   its own delay: `late`, plus a uniform draw from 0 to `jitter`; without end while the signal is lost
 * So a delay that grows leaves the last value standing until the late ones come, one that shrinks lets newer
 * samples overtake older ones, and samples under way when a signal is lost still arrive.
 * Times in ticks. Not modelled: single bits, values that arrive twice, a reader's own clock.
 */
import type { Random } from '../../loads/random.ts';

export class Wire {
  /** Nothing that is sent from now on arrives. */
  lost = false;
  /** Values arrive times this. */
  factor = 1;
  /** Value at which the common line of the receivers sits, or null. Only share has such a line. */
  stuck: number | null = null;
  private late = 0;
  private jitter = 0;
  private isFrozen = false;
  private readonly period: number;
  private readonly latency: number;
  private readonly random: Random;
  private slots: { readonly values: Float64Array; delay: number }[];
  private newest: number;
  /** What the reader last took, and how old it is when the newest sample's reader runs. */
  private readonly held: Float64Array;
  private heldAge: number;

  /** `past`: what is under way, newest first; the last of it is what the reader holds. */
  constructor(period: number, latency: number, past: readonly Float64Array[], random: Random) {
    this.period = period;
    this.latency = latency;
    this.random = random;
    this.slots = past.map((values) => ({ values: values.slice(), delay: 0 })).reverse();
    this.newest = this.slots.length - 1;
    this.held = past.at(-1)!.slice();
    this.heldAge = latency;
  }

  /** Delays of what is sent from now on [ticks]: every sample by `late`, and by a random time up to `jitter`. */
  delay(kind: 'late' | 'jitter', ticks: number): void {
    this[kind] = ticks;
    const most = this.latency + this.late + this.jitter;
    const needed = Math.ceil(most / this.period) + 2;
    if (needed <= this.slots.length) return;
    // Oldest first, so that the newest stands last; room in front of it for samples that were never taken.
    const size = this.slots[0]!.values.length;
    const n = this.slots.length;
    const inOrder = this.slots.map((_, k) => this.slots[(this.newest + 1 + k) % n]!);
    const room = Array.from({ length: needed - n }, () => ({
      values: new Float64Array(size),
      delay: Number.POSITIVE_INFINITY,
    }));
    this.slots = [...room, ...inOrder];
    this.newest = needed - 1;
  }

  /** The last value stands and looks fresh; or moves again. */
  freeze(frozen: boolean): void {
    this.isFrozen = frozen;
  }

  /** Takes a sample on its way. */
  send(values: Float64Array): void {
    this.newest = (this.newest + 1) % this.slots.length;
    const slot = this.slots[this.newest]!;
    slot.values.set(values.subarray(0, slot.values.length));
    const drawn = this.jitter > 0 ? Math.round(this.random.uniform() * this.jitter) : 0;
    slot.delay = this.lost ? Number.POSITIVE_INFINITY : this.late + drawn;
    if (!this.isFrozen) this.heldAge += this.period;
  }

  /** Writes what has arrived into the first elements of `out`. */
  read(out: Float64Array): void {
    if (!this.isFrozen) this.take();
    for (let k = 0; k < this.held.length; k++) out[k] = this.factor * this.held[k]!;
  }

  private take(): void {
    const n = this.slots.length;
    const phase = this.latency % this.period;
    for (let back = 0; back < n; back++) {
      const age = back * this.period + phase;
      if (age >= this.heldAge) return;
      const slot = this.slots[(this.newest - back + n) % n]!;
      if (age < this.latency + slot.delay) continue;
      this.held.set(slot.values);
      this.heldAge = age;
      return;
    }
  }

  /** How much older than its latency the value is that the reader holds [ticks]. */
  get overdue(): number {
    return this.heldAge - this.latency;
  }
}
