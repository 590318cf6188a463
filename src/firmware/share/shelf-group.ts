/** The shelves as a group that shares: on line while running, unclamped, on AC, neither walking in nor starting softly. */
import type { Int } from '../../base/int.ts';
import type { IntakePorts } from '../../devices/intake/intake-ports.ts';
import type { StagePorts } from '../../devices/stage/stage-ports.ts';
import type { ShelfValues } from '../../scenario/parameters/shelf.ts';
import type { Site } from '../site.ts';
import type { ShareGroup } from './share-group.ts';

export class ShelfGroup implements ShareGroup {
  readonly task = 'share';
  readonly units: StagePorts;
  readonly forgets = false;
  readonly gain: readonly number[];
  readonly offset: readonly number[];
  readonly behind: readonly number[];
  /** 1 for a shelf in soft start; the shelves' guard writes it. */
  readonly starting: Uint8Array;
  private readonly intakes: IntakePorts;

  constructor(site: Site, shelves: readonly ShelfValues[]) {
    this.units = site.shelves;
    this.intakes = site.intakes;
    this.gain = shelves.map((s) => s.sense_gain_ratio);
    this.offset = shelves.map((s) => s.sense_offset_ratio);
    this.behind = shelves.map((s) => site.ticks(s.share_phase_s));
    this.starting = new Uint8Array(shelves.length);
  }

  private isFed(k: Int): boolean {
    const { units, intakes, starting } = this;
    return starting[k] === 0 && units.isRunning(k) && intakes.hasAc(k) && intakes.hasWalkedIn(k);
  }

  isOnLine(k: Int): boolean {
    return this.isFed(k) && !this.units.isClamped(k);
  }

  isAtLimit(k: number): boolean {
    return this.isFed(k) && this.units.isAtLimit(k);
  }
}
