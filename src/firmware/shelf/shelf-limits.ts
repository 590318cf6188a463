/**
 * The limits a shelf works under, put together from everything that has a say in them:
 *
 *   I_lim = I_r m min(d, s) L      L = I_cc, or I_pk while its short-term allowance lasts
 *   P_lim = P_r m min(P_dc, P_sus while it is held, d while d < 1)
 *
 * m: modules alive over all, d: derating (1 when cool), s: soft start (0 to 1). The device then takes
 * min(I_lim, P_lim/v), folded back with the bulk. Modules that fail shrink the whole shelf: bulk, gains, losses.
 */

import type { ShelfValues } from '../../scenario/parameters/shelf.ts';
import type { Site } from '../site.ts';

export class ShelfLimits {
  /** Modules of each shelf that have failed, all of them included. */
  readonly failed: Float64Array;
  /** Modules that each device is made smaller by: those that have failed, but never the last. */
  private readonly gone: Float64Array;
  /** Share of its rated power that each shelf is derated to; 1 when it is not. */
  readonly derated: Float64Array;
  /** How far each shelf's soft start has come; 1 when it is over. */
  readonly soft: Float64Array;
  /** The short-term current limit holds; the sustained power limit holds. */
  readonly isPeak: Uint8Array;
  readonly isHeld: Uint8Array;
  /** Rated output power of each shelf's modules that are alive [W]. */
  readonly rated_W: Float64Array;
  readonly shelves: readonly ShelfValues[];
  private readonly site: Site;

  constructor(site: Site, shelves: readonly ShelfValues[]) {
    const n = shelves.length;
    this.site = site;
    this.shelves = shelves;
    this.failed = new Float64Array(n);
    this.gone = new Float64Array(n);
    this.rated_W = Float64Array.from(shelves, (s) => s.module_count_count * s.module_power_W);
    this.derated = new Float64Array(n).fill(1);
    this.soft = new Float64Array(n).fill(1);
    this.isPeak = Uint8Array.from(shelves, (s) =>
      s.peak_current_limit_ratio > s.current_limit_ratio ? 1 : 0,
    );
    this.isHeld = new Uint8Array(n);
    for (let k = 0; k < n; k++) if (this.isPeak[k]) this.apply(k);
  }

  /** Share of shelf k's modules that are alive. */
  alive(k: number): number {
    const all = this.shelves[k]!.module_count_count;
    return (all - this.gone[k]!) / all;
  }

  /** Writes shelf k's limits to its device. */
  apply(k: number): void {
    const { shelves, intakes } = this.site;
    const s = this.shelves[k]!;
    const derated = this.derated[k]!;
    const level = this.isPeak[k] ? s.peak_current_limit_ratio : s.current_limit_ratio;
    const soft = this.soft[k]!;
    const current = shelves.rated_A(k) * level * (soft < derated ? soft : derated);
    let power = s.output_power_limit_ratio;
    if (this.isHeld[k] && s.sustained_power_limit_ratio < power) power = s.sustained_power_limit_ratio;
    if (derated < 1 && derated < power) power = derated;
    intakes.commandLimits(k, current, power * this.rated_W[k]!);
  }

  /**
   * Makes `out` of shelf k's modules failed ones (fewer than all of them). What they carried goes with them: the
   * loop's memory and the input power shrink at once, the current follows within its slew limit. Returns the
   * energy of the bulk capacitors that leave; negative when modules come back, charged as the others are [J].
   */
  resize(k: number, out: number): number {
    const { shelves, intakes } = this.site;
    const before = this.alive(k);
    this.gone[k] = out;
    const share = this.alive(k);
    const s = this.shelves[k]!;
    this.rated_W[k] = s.module_count_count * s.module_power_W * share;
    shelves.resize(k, share, before);
    const removed_J = intakes.resize(k, share, before);
    this.apply(k);
    return removed_J;
  }
}
