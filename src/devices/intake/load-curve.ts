/** A quantity of each unit against its load: straight between loads of 10, 20, 50 and 100 % of rated, flat beyond them. */
import type { Int } from '../../base/int.ts';

/** Values at a tenth, a fifth, half and the whole of rated. */
export type LoadPoints = readonly [tenth: number, fifth: number, half: number, full: number];

export class LoadCurve {
  private readonly tenth: Float64Array;
  private readonly fifth: Float64Array;
  private readonly half: Float64Array;
  private readonly full: Float64Array;
  /** 1 where no unit's value depends on its load. */
  readonly isFlat: Int;

  constructor(points: readonly LoadPoints[]) {
    this.tenth = Float64Array.from(points, ([tenth]) => tenth);
    this.fifth = Float64Array.from(points, ([, fifth]) => fifth);
    this.half = Float64Array.from(points, ([, , half]) => half);
    this.full = Float64Array.from(points, ([, , , full]) => full);
    this.isFlat = points.every(([tenth, ...more]) => more.every((value) => value === tenth)) ? 1 : 0;
  }

  /** Of unit k at this load, a share of rated. */
  at(k: Int, load: number): number {
    const { tenth, fifth, half, full } = this;
    if (load >= 1) return full[k]!;
    if (load >= 0.5) return half[k]! + (full[k]! - half[k]!) * (load - 0.5) * 2;
    if (load >= 0.2) return fifth[k]! + ((half[k]! - fifth[k]!) * (load - 0.2)) / 0.3;
    if (load >= 0.1) return tenth[k]! + (fifth[k]! - tenth[k]!) * (load - 0.1) * 10;
    return tenth[k]!;
  }
}
