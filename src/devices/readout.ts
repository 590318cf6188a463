/** What a kind shows of its units: channels, and their values at any moment. */
import type { Shown } from '../channels/channel.ts';

export abstract class Readout {
  readonly shows: readonly Shown[];
  /** Where the channels of each of them begin; the gauge says it. */
  readonly at: Int32Array;

  constructor(shows: readonly Shown[]) {
    this.shows = shows;
    this.at = new Int32Array(shows.length);
  }

  /** Writes its channels at states x and node voltages v. */
  abstract read(out: Float64Array, x: Float64Array, v: Float64Array): void;
}
