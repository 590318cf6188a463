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
import { alongSide, type Point, throughout } from './box-points.ts';
import type { GainsMap } from './map.ts';

/** A face stands where the next value out that fails is no farther than this. */
const near_ratio = 0.02;
const mostHalvings = 8;
const mostCuts = 12;

/** The map with its box made finer; as it was where nothing is recommended. */
export async function withFinerBox(map: GainsMap, points: AskedPoints): Promise<GainsMap> {
  const { recommended } = map;
  if (recommended === null) return map;
  const search = new Search(map, recommended.place, points);
  const { box } = recommended;
  const moved = await search.cut(await search.moveOut(box));
  const counted = countedIn({ ...moved, between: search.good }, map.axes);
  return { ...map, recommended: { ...recommended, box: counted } };
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
    const others = [pair[1 - k]!, ...alongSide(box.sides[1 - k]!, this.axes[1 - k]!)];
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

  /** Corners, faces and a filling sample; where one fails, the box is cut inside it. */
  async cut(box: Box): Promise<Box> {
    let made = box;
    for (let n = 0; n < mostCuts; n++) {
      this.good = 0;
      const bad = await this.firstBad(throughout(made, this.axes), 'all');
      if (bad === null) return made;
      made = await this.cutAt(made, bad);
    }
    // What still fails is told by a box of the chosen point alone.
    this.good = 0;
    const [i, j] = this.chosen;
    return {
      ...made,
      sides: [alone(made.sides[0], i, this.axes[0]), alone(made.sides[1], j, this.axes[1])],
    };
  }

  /**
   * Cut so that this point lies outside, half-way to the chosen one, on the side that loses least of those whose new face is whole;
   * on both where neither is: a gap may lie across the box.
   */
  private async cutAt(box: Box, bad: Point): Promise<Box> {
    const cuts = [];
    for (const k of [0, 1] as const) {
      const chosen = this.chosen[k];
      if (bad[k] === chosen) continue;
      const { low, high } = box.sides[k];
      const end = bad[k] > chosen ? 'high' : 'low';
      const inward: Inward = end === 'low' ? 1 : -1;
      const value = rounded((bad[k] + chosen) / 2, inward, this.axes[k]);
      const face = faceAt(this.axes[k], value, inward, this.changesOf(bad));
      const along = alongSide(box.sides[1 - k]!, this.axes[1 - k]!);
      const points = along.map((other): Point => (k === 0 ? [value, other] : [other, value]));
      const isWhole = (await this.firstBad(points, 'failing')) === null;
      const lost = Math.abs(value - (end === 'high' ? high : low).value) / (high.value - low.value);
      cuts.push({ k, end, face, isWhole, lost } as const);
    }
    const whole = cuts.filter(({ isWhole }) => isWhole).sort((a, b) => a.lost - b.lost);
    const taken = whole.length > 0 ? whole.slice(0, 1) : cuts;
    let made = taken.reduce((whole, { k, end, face }) => withFace(whole, k, end, face), box);
    // Half-way is far: out again, up to what fails.
    for (const { k, end } of taken) made = withFace(made, k, end, await this.faceOut(made, k, end));
    return made;
  }

  /** The first of these points that is not acceptable; null where all are. */
  private async firstBad(points: readonly Point[], circumstances: 'all' | 'failing'): Promise<Point | null> {
    const changes = points.map((point) => this.changesOf(point));
    const first = (await this.points.asTheyAre(changes)).findIndex((lack) => lack !== null);
    if (first >= 0) return points[first]!;
    const bad = (await this.points.inAll(changes, circumstances)).findIndex((lack) => lack !== null);
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

/** With the points of the map that are in the box as it has become. */
function countedIn(box: Box, axes: readonly [GainsAxis, GainsAxis]): Box {
  const [a, b] = box.sides;
  const [i, j] = [placesIn(a, axes[0]), placesIn(b, axes[1])];
  return {
    ...box,
    from: [i.first, j.first],
    to: [i.last, j.last],
    points: (i.last - i.first + 1) * (j.last - j.first + 1),
  };
}

/** The chosen value is among them. */
function placesIn(
  { low, high }: BoxSide,
  { numbers }: GainsAxis,
): { readonly first: number; readonly last: number } {
  const isIn = (value: number): boolean => value >= low.value && value <= high.value;
  return { first: numbers.findIndex(isIn), last: numbers.findLastIndex(isIn) };
}

function alone(side: BoxSide, value: number, axis: GainsAxis): BoxSide {
  return {
    ...side,
    low: faceAt(axis, value, 1, side.low.fails),
    high: faceAt(axis, value, -1, side.high.fails),
  };
}

function numberOf(text: string, { unit }: GainsAxis): number {
  const reading = readQuantity(text, unit);
  return reading.ok ? reading.value : Number.NaN;
}
