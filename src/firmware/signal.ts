/**
 * The signal table's entry: a vector sampled together every period and readable when it is as old as its
 * latency. With T the period and d the latency, samples are taken at n T and the task that reads them runs
 * at n T + (d mod T), where the newest sample of age d is the one taken at n T − floor(d/T) T.
 */
export class Signal {
  readonly name: string;
  readonly size: number;
  readonly period: number;
  readonly latency: number;
  private readonly ring: Float64Array[];
  private newest = 0;
  private readonly source: (out: Float64Array) => void;

  /** Period and latency in ticks. */
  constructor(
    name: string,
    size: number,
    period: number,
    latency: number,
    source: (out: Float64Array) => void,
  ) {
    this.name = name;
    this.size = size;
    this.period = period;
    this.latency = latency;
    this.source = source;
    this.ring = Array.from({ length: Math.floor(latency / period) + 1 }, () => new Float64Array(size));
  }

  /** Offset of the reading task inside the period [ticks]. */
  get phase(): number {
    return this.latency % this.period;
  }

  /** Takes one sample. */
  sample(): void {
    this.newest = (this.newest + 1) % this.ring.length;
    this.source(this.ring[this.newest]!);
  }

  /** The sample that is as old as the latency: the oldest one held. */
  read(): Float64Array {
    return this.ring[(this.newest + 1) % this.ring.length]!;
  }

  /** Fills the whole buffer with the present: a settled past. */
  settle(): void {
    for (const slot of this.ring) this.source(slot);
  }
}
