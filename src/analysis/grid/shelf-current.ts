/** Power factor and distortion of a feeder's line current, as the models of its shelves have them against load: means over them. */
import { LoadCurve, type LoadPoints } from '../../devices/intake/load-curve.ts';
import { distortions, powerFactors, tangents } from '../../scenario/derived/line-current-points.ts';
import type { ShelfValues } from '../../scenario/parameters/shelf.ts';
import type { Stated } from '../record/stated.ts';

export interface ShelfCurrent {
  /** At a power of the whole feeder [W]. */
  powerFactor(power_W: number): number;
  /** tan φ of the fundamental. */
  tangent(power_W: number): number;
  /** Total harmonic distortion of the current; 0 where no model states one. */
  distortion(power_W: number): number;
  /** Power over the rated power of the feeder's shelves. */
  load(power_W: number): number;
  /** Some shelf's power factor depends on its load. */
  readonly isCurved: boolean;
}

export function shelfCurrent({ shelves }: Pick<Stated, 'shelves'>, feeder: string): ShelfCurrent {
  const on = shelves.filter((shelf) => shelf.feeder === feeder).map(({ values }) => values);
  const rated_W = on.reduce((sum, s) => sum + s.module_count_count * s.module_power_W, 0);
  const load = (power_W: number): number => power_W / rated_W;
  const meanOf = (points: (s: ShelfValues) => LoadPoints): ((power_W: number) => number) => {
    const curve = new LoadCurve(on.map(points));
    return (power_W) => meanAt(curve, on.length, load(power_W));
  };
  return {
    powerFactor: meanOf(powerFactors),
    tangent: meanOf(tangents),
    distortion: meanOf(distortions),
    load,
    isCurved: new LoadCurve(on.map(powerFactors)).isFlat === 0,
  };
}

/** Mean of `count` shelves' curves at a load. */
function meanAt(curve: LoadCurve, count: number, load_ratio: number): number {
  let mean = 0;
  for (let k = 0; k < count; k++) mean += curve.at(k, load_ratio) / count;
  return mean;
}
