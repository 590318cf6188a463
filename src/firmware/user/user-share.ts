/** The share law as a module of the user's computes it. */
import type { ControllerSpec } from '../../scenario/scenario.ts';
import type { ShareSetup } from './contract.ts';
import { UserLaw } from './user-law.ts';

export class UserShare extends UserLaw {
  private readonly setup: ShareSetup;

  constructor(spec: ControllerSpec, setup: ShareSetup) {
    super(spec, setup, setup.shelves, {
      time_s: 'number',
      current_ratio: 'numbers',
      online: 'flags',
    });
    this.setup = setup;
  }

  get hasRest(): boolean {
    return this.enclosure.hasRest;
  }

  /** Trims [V] from samples. Throws ControllerFault. */
  run(time_s: number, y: Float64Array, isOnLine: (k: number) => boolean): Float64Array {
    const { enclosure } = this;
    const { input } = enclosure;
    input['time_s']![0] = time_s;
    input['current_ratio']!.set(y);
    const online = input['online']!;
    for (let k = 0; k < y.length; k++) online[k] = isOnLine(k) ? 1 : 0;
    enclosure.call('run', time_s);
    this.checkReach(enclosure.out, time_s, 'run()');
    return enclosure.out;
  }

  /** Trim at rest of a shelf; 0 where the module does not say. */
  restingTrim_V(k: number, y: number, mean: number): number {
    const { enclosure } = this;
    if (!enclosure.hasRest) return 0;
    enclosure.at.set([k, y, mean]);
    enclosure.call('restingTrim', null);
    return enclosure.at[3]!;
  }

  /** Looks for the settled start, which asks for resting trims many times. */
  search(work: () => void): void {
    if (this.enclosure.hasRest) this.enclosure.search(work);
    else work();
  }

  /** Memory where the cabinet has settled. */
  settle(trim_V: Float64Array): void {
    this.checkReach(trim_V, null, 'rest()');
    this.enclosure.call('restingMemory', null, JSON.stringify({ trim_V: [...trim_V] }));
  }

  private checkReach(trim_V: Float64Array, time_s: number | null, what: string): void {
    const limit = this.setup.values.trim_limit_V;
    const k = trim_V.findIndex((u) => Math.abs(u) > limit * (1 + 1e-9));
    if (k < 0) return;
    throw this.enclosure.fault(
      `${what} returned ${trim_V[k]} V for ${this.setup.shelves[k]}`,
      time_s,
      `a trim within ±${limit} V (firmware.share.trim_limit)`,
    );
  }
}
