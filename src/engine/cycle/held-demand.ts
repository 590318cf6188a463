/** A load held at what it begins with, until it is let go: what a cabinet that must be run to its rest sees before the run. */
import type { Demand } from '../../loads/demand.ts';

export class HeldDemand {
  private isHeld = true;
  private readonly demand: Demand;
  private readonly approach: number;

  /** `approach`: comes from half of the load in so many ticks; 0: stands from the start. */
  constructor(demand: Demand, approach: number) {
    this.demand = demand;
    this.approach = approach;
  }

  letGo(): void {
    this.isHeld = false;
  }

  /** The demand that the cabinet is built with. */
  asDemand(): Demand {
    const { demand, approach } = this;
    return {
      ...demand,
      nextKink: (tick) =>
        this.isHeld ? (tick < approach ? approach : Number.POSITIVE_INFINITY) : demand.nextKink(tick),
      kinkAt: (tick) => (this.isHeld ? 0 : demand.kinkAt(tick)),
      at: (out, tick) => {
        demand.at(out, this.isHeld ? 0 : tick);
        if (!this.isHeld || tick >= approach) return;
        const share = 0.5 + tick / (2 * approach);
        for (let k = 0; k < out.length; k++) out[k]! *= share;
      },
    };
  }
}
