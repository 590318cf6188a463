/** Who shares with whom: the shelves, or the battery shelves while they carry. */
import type { StagePorts } from '../../devices/stage/stage-ports.ts';
import type { Handover } from '../battery/handover.ts';
import type { Site } from '../site.ts';

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

/** The battery shelves: on line while they carry; asleep they forget their trims. */
export function batteryGroup({ batteries: units }: Site, { phases }: Handover): ShareGroup {
  const none = new Float64Array(units.count);
  const carries = (k: number): boolean => units.isRunning(k) && phases.of[k] === 'carrying';
  return {
    task: 'battery share',
    units,
    isOnLine: (k) => carries(k) && !units.isClamped(k),
    isAtLimit: (k) => carries(k) && units.isAtLimit(k),
    forgets: true,
    gain: none,
    offset: none,
    behind: none,
  };
}
