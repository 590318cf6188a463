/** Who shares with whom: the shelves (shelf-group.ts), or the battery shelves while they carry (battery-group.ts). */
import type { StagePorts } from '../../devices/stage/stage-ports.ts';

export interface ShareGroup {
  /** What the log calls its task. */
  readonly task: string;
  readonly units: StagePorts;
  /** A unit takes part: it runs, no clamp holds it, nothing else decides what it carries. */
  isOnLine(k: number): boolean;
  /** Its current limit alone keeps a unit from taking part. */
  isAtLimit(k: number): boolean;
  /** A unit that stands still forgets its trim. */
  readonly forgets: boolean;
  /** Error of each unit's current sensor as built: gain, and offset over rated. */
  readonly gain: ArrayLike<number>;
  readonly offset: ArrayLike<number>;
  /** How far each unit's task runs behind the first one's [ticks]. */
  readonly behind: ArrayLike<number>;
}
