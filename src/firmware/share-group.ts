/** Who shares with whom: the shelves, or the battery shelves while they carry. */
import type { Intakes } from '../devices/intake/intake.ts';
import type { Packs } from '../devices/pack/pack.ts';
import { type Stages, stageMode } from '../devices/stage/stage.ts';
import type { Shelf } from '../scenario/scenario.ts';
import type { Handover } from './handover.ts';
import type { Plant } from './task.ts';

export interface ShareGroup {
  readonly names: readonly string[];
  /** Stage of the group's first unit. */
  readonly first: number;
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

function isClamped({ mode }: Stages, k: number): boolean {
  const held = mode[k]!;
  return held === stageMode.limit || held === stageMode.zero || held === stageMode.off;
}

/** The shelves: on line while running, unclamped, on AC and not walking in. */
export function shelfGroup(
  shelves: readonly Shelf[],
  tick_s: number,
  stages: Stages,
  intakes: Intakes,
  plant: Plant,
): ShareGroup {
  const isFed = (k: number): boolean =>
    stages.running[k] === 1 &&
    intakes.present[k] === 1 &&
    plant.x[intakes.offset + 3 * intakes.count + k]! >= intakes.columns.limit_W[k]!;
  return {
    names: intakes.names,
    first: 0,
    isOnLine: (k) => isFed(k) && !isClamped(stages, k),
    isAtLimit: (k) => isFed(k) && stages.mode[k] === stageMode.limit,
    forgets: false,
    gain: shelves.map(({ values }) => values.sense_gain_ratio),
    offset: shelves.map(({ values }) => values.sense_offset_ratio),
    behind: shelves.map(({ values }) => Math.round(values.share_phase_s / tick_s)),
  };
}

/** The battery shelves: on line while they carry; asleep they forget their trims. */
export function batteryGroup(stages: Stages, packs: Packs, handover: Handover): ShareGroup {
  const none = new Float64Array(packs.count);
  const carries = (k: number): boolean =>
    stages.running[packs.firstStage + k] === 1 && handover.phases.of[k] === 'carrying';
  return {
    names: packs.names,
    first: packs.firstStage,
    isOnLine: (k) => carries(k) && !isClamped(stages, packs.firstStage + k),
    isAtLimit: (k) => carries(k) && stages.mode[packs.firstStage + k] === stageMode.limit,
    forgets: true,
    gain: none,
    offset: none,
    behind: none,
  };
}
