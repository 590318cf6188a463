/**
 * The box between the points of the map: each face that does not lie on the map's end is moved out until a point along it
 * fails, found by halving; then the whole box is run once more, its corners, points along its faces and a filling sample, and
 * cut where one of them fails. What is stated has three digits, and what was run is what is stated.
 */
import { formatQuantity, readQuantity } from '../../base/quantity.ts';
import type { Change } from '../../scenario/scenario.ts';
import type { AskedPoints } from './asked-points.ts';
import type { GainsAxis } from './axis.ts';
import { type Box, type BoxSide, type Face, faceAt, type Inward, rounded } from './box.ts';
import type { GainsMap } from './map.ts';

/** A face stands where the next value out that fails is no farther than this. */
const near_ratio = 0.02;
const mostHalvings = 8;
/** Points along a face, its ends among them, and points of the filling sample. */
const alongCount = 5;
const fillCount = 20;
const mostCuts = 12;

type Point = readonly [number, number];

/** The map with its box made finer; as it was where nothing is recommended. */
export async function withFinerBox(map: GainsMap, points: AskedPoints): Promise<GainsMap> {
  const { recommended } = map;
  if (recommended === null) return map;
  const search = new Search(map, recommended.place, points);
  const { box } = recommended;
  const moved = await search.cut(await search.moveOut(box));
  return { ...map, recommended: { ...recommended, box: { ...moved, between: search.good } } };
}

class Search {
  /** Points run that are acceptable. */
  good = 0;
  private readonly axes: readonly [GainsAxis, GainsAxis];
  private readonly chosen: Point;
  private readonly points: AskedPoints;

  constructor({ axes }: GainsMap, [i, j]: readonly [number, number], points: AskedPoints) {
    this.axes = axes;
    this.chosen = [axes[0].numbers[i]!, axes[1].numbers[j]!];
    this.points = points;
  }

  /** Each face in turn, along the box as it has become. */
  async moveOut(box: Box): Promise<Box> {
    let made = box;
    for (const k of [0, 1] as const) {
      for (const end of ['low', 'high'] as const) {
        const face = await this.faceOut(made, k, end);
        made = withFace(made, k, end, face);
      }
    }
    return made;
  }

  private async faceOut(box: Box, k: 0 | 1, end: 'low' | 'high'): Promise<Face> {
    const axis = this.axes[k];
    const inward: Inward = end === 'low' ? 1 : -1;
    const start = box.sides[k][end];
    if (start.fails === null) return start;
    const pair = start.fails.map(({ value }, side) => numberOf(value, this.axes[side]!)) as [number, number];
    let [inside, outside, fails] = [start.value, pair[k], start.fails];
    const others = [pair[1 - k]!, ...steps(box.sides[1 - k]!, alongCount, this.axes[1 - k]!)];
    for (let n = 0; n < mostHalvings && Math.abs(outside - inside) > near_ratio * Math.abs(inside); n++) {
      const between = rounded((inside + outside) / 2, inward, axis);
      if (between === inside || between === outside) break;
      const points = others.map((other): Point => (k === 0 ? [between, other] : [other, between]));
      // The other value that failed farther out comes first: where it fails here too, the rest need not run.
      const bad =
        (await this.firstBad(points.slice(0, 1), 'failing')) ??
        (await this.firstBad(points.slice(1), 'failing'));
      if (bad === null) inside = between;
      else [outside, fails] = [between, this.changesOf(bad)];
    }
    return faceAt(axis, inside, inward, fails);
  }

  /** Corners, faces and a filling sample; where one fails, the box is cut inside it, losing as little as can be. */
  async cut(box: Box): Promise<Box> {
    let made = box;
    for (let n = 0; n < mostCuts; n++) {
      this.good = 0;
      const bad = await this.firstBad(throughout(made, this.axes), 'all');
      if (bad === null) return made;
      made = this.cutAt(made, bad);
    }
    // What still fails is told by a box of the chosen point alone.
    const [i, j] = this.chosen;
    return {
      ...made,
      sides: [alone(made.sides[0], i, this.axes[0]), alone(made.sides[1], j, this.axes[1])],
    };
  }

  private cutAt(box: Box, bad: Point): Box {
    const cuts = ([0, 1] as const).flatMap((k) => {
      const { low, high } = box.sides[k];
      const chosen = this.chosen[k];
      if (bad[k] === chosen) return [];
      const end = bad[k] > chosen ? 'high' : 'low';
      const inward: Inward = end === 'low' ? 1 : -1;
      const value = rounded(bad[k] + (chosen - bad[k]) / 4, inward, this.axes[k]);
      const lost = Math.abs(value - (end === 'high' ? high : low).value) / (high.value - low.value);
      return [{ k, end, lost, face: faceAt(this.axes[k], value, inward, this.changesOf(bad)) } as const];
    });
    const least = cuts.reduce((a, b) => (b.lost < a.lost ? b : a));
    return withFace(box, least.k, least.end, least.face);
  }

  /** The first of these points that is not acceptable; null where all are. */
  private async firstBad(points: readonly Point[], samples: 'all' | 'failing'): Promise<Point | null> {
    const changes = points.map((point) => this.changesOf(point));
    const first = (await this.points.asTheyAre(changes)).findIndex((lack) => lack !== null);
    if (first >= 0) return points[first]!;
    const bad = (await this.points.withSamples(changes, samples)).findIndex((lack) => lack !== null);
    if (bad >= 0) return points[bad]!;
    this.good += points.length;
    return null;
  }

  private changesOf(point: Point): readonly Change[] & NonNullable<Face['fails']> {
    return point.map((value, k) => ({
      path: this.axes[k]!.path,
      value: formatQuantity(value, this.axes[k]!.unit),
    }));
  }
}

function withFace(box: Box, k: 0 | 1, end: 'low' | 'high', face: Face): Box {
  const side = { ...box.sides[k], [end]: face };
  return { ...box, sides: k === 0 ? [side, box.sides[1]] : [box.sides[0], side] };
}

function alone(side: BoxSide, value: number, axis: GainsAxis): BoxSide {
  return {
    ...side,
    low: faceAt(axis, value, 1, side.low.fails),
    high: faceAt(axis, value, -1, side.high.fails),
  };
}

/** So many values from one end of a side to the other, to three digits, none outside. */
function steps({ low, high }: BoxSide, count: number, axis: GainsAxis): number[] {
  return Array.from({ length: count }, (_, n) => at(low.value, high.value, n / (count - 1), axis));
}

function at(low: number, high: number, share: number, axis: GainsAxis): number {
  if (share === 1) return rounded(high, -1, axis);
  return rounded(low + share * (high - low), 1, axis);
}

/** The points that the whole box is run at: along all faces, and Halton's sequence (1960) inside. */
function throughout({ sides: [a, b] }: Box, [along, across]: readonly [GainsAxis, GainsAxis]): Point[] {
  const x = (share: number): number => at(a.low.value, a.high.value, share, along);
  const y = (share: number): number => at(b.low.value, b.high.value, share, across);
  const faces = [0, 1].flatMap((end) => [
    ...steps(b, alongCount, across).map((other): Point => [x(end), other]),
    ...steps(a, alongCount, along).map((other): Point => [other, y(end)]),
  ]);
  const filling = Array.from(
    { length: fillCount },
    (_, n): Point => [x(halton(n + 1, 2)), y(halton(n + 1, 3))],
  );
  return [...faces, ...filling];
}

/** The digits of n in this base, mirrored behind the point. */
function halton(n: number, base: number): number {
  let [sum, digit] = [0, 1 / base];
  for (let rest = n; rest > 0; rest = Math.floor(rest / base), digit /= base) sum += digit * (rest % base);
  return sum;
}

function numberOf(text: string, { unit }: GainsAxis): number {
  const reading = readQuantity(text, unit);
  return reading.ok ? reading.value : Number.NaN;
}
