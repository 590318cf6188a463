/**
 * The signal table's entry: a vector sampled together every period and readable when it is as old as its
 * latency. With T the period and d the latency, samples are taken at n T and the task that reads them runs
 * at n T + (d mod T), where the newest sample of age d is the one taken at n T − floor(d/T) T.
 *
 * The first elements travel and may fail on their way (`wire`); the reader's own measurements stand behind them.
 */
import { Random } from '../../loads/random.ts';
import { Wire } from './wire.ts';

export interface SignalSpec {
  readonly name: string;
  readonly size: number;
  /** In ticks. */
  readonly period: number;
  readonly latency: number;
  /** How many of the first elements come from elsewhere; all of them unless it is said. */
  readonly travelling?: number;
}

/** What is sampled. */
export interface SampleSource {
  /** Writes one sample, what is there now. */
  takeSample(out: Float64Array): void;
}

export class Signal {
  readonly name: string;
  readonly size: number;
  readonly period: number;
  readonly latency: number;
  /** How many of the first elements come from elsewhere. */
  readonly travelling: number;
  private readonly ring: Float64Array[];
  private newest = 0;
  private readonly source: SampleSource;
  private faulty: Wire | null = null;
  private readonly received: Float64Array;

  constructor({ name, size, period, latency, travelling = size }: SignalSpec, source: SampleSource) {
    this.name = name;
    this.size = size;
    this.period = period;
    this.latency = latency;
    this.source = source;
    this.travelling = travelling;
    this.ring = Array.from({ length: Math.floor(latency / period) + 1 }, () => new Float64Array(size));
    this.received = new Float64Array(size);
  }

  /** Offset of the reading task inside the period [ticks]. */
  get phase(): number {
    return this.latency % this.period;
  }

  /** Takes one sample. */
  sample(): void {
    this.newest = (this.newest + 1) % this.ring.length;
    this.source.takeSample(this.ring[this.newest]!);
    this.faulty?.send(this.ring[this.newest]!);
  }

  /** The sample that is as old as the latency, the oldest one held; or what a faulty wire lets through. */
  read(): Float64Array {
    const sample = this.ring[(this.newest + 1) % this.ring.length]!;
    if (this.faulty === null) return sample;
    this.received.set(sample);
    this.faulty.read(this.received);
    return this.received;
  }

  /** Fills the whole buffer with the present: a settled past. */
  settle(): void {
    for (const slot of this.ring) this.source.takeSample(slot);
  }

  /** The wire that the samples go through, made when first something happens to it; `seed` draws its jitter. */
  wire(seed: number): Wire {
    const n = this.ring.length;
    const past = this.ring.map((_, back) =>
      this.ring[(this.newest - back + n) % n]!.subarray(0, this.travelling),
    );
    this.faulty ??= new Wire(this.period, this.latency, past, new Random(seed));
    return this.faulty;
  }

  /** How much older than its latency the value is that was last read [ticks]; 0 for a sound wire. */
  get overdue(): number {
    return this.faulty === null ? 0 : this.faulty.overdue;
  }

  /** Value at which the common line of the receivers sits; null where it works. */
  get stuck(): number | null {
    return this.faulty === null ? null : this.faulty.stuck;
  }
}
