/**
 * Where everything of the cabinet stands on the drawing: the rack bar upright on the left, section A along the
 * top, section B along the bottom, the tie on the right; link bars join them where they do in copper.
 */
import type { Scenario } from '../../src/scenario/scenario.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface BarPlace {
  readonly id: string;
  readonly path: readonly Point[];
  readonly closed: boolean;
}

export interface UnitPlace {
  readonly id: string;
  readonly node: string;
  readonly at: Point;
  /** -1: stands above its bar, 1: below, 0: left of the rack bar. */
  readonly side: -1 | 0 | 1;
}

export interface Layout {
  readonly width: number;
  readonly height: number;
  /** Width of a unit's box on a section. */
  readonly box: number;
  readonly rackX: number;
  readonly rackTop: number;
  readonly rowHeight: number;
  readonly bars: readonly BarPlace[];
  readonly units: readonly UnitPlace[];
  readonly sleds: readonly UnitPlace[];
  readonly sectionLabels: readonly (Point & { readonly text: string; readonly isAtEnd: boolean })[];
  /** Units stand so close that their figures are written upwards. */
  readonly isCrowded: boolean;
  /** Free room between the sections; null where bars pass through it. */
  readonly middle: Room | null;
}

interface Room {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Height that a unit and its words take beside a bar, and what words written upwards take more [px]. */
export const unitRoom = 98;
const uprightRoom = 26;
/** Boxes narrower than this have no room for their words across [px]. */
const leastBox = 44;
/** The sums and what is pointed at take so much height [px]. */
const leastMiddle = 190;
const rowHeight = 25;
const sledRoom = 128;

/** Lays the cabinet out for a drawing of that width [px]. */
export function layOut(scenario: Scenario, width: number): Layout {
  const { sections, bars, sleds } = scenario;
  const rackX = sledRoom + 16;
  const rows = Math.max(2, sleds.length);
  const longest = Math.max(...sections.map(({ order }) => order.length));
  const firstX = rackX + Math.max(46, 0.06 * width);
  const pitch = (width - firstX - 34) / Math.max(1, longest - 0.5);
  const box = Math.min(58, pitch - 8);
  const isCrowded = box < leastBox;
  const room = unitRoom + 6 + (isCrowded ? uprightRoom : 0);
  const top = room;
  const bottom = top + (rows - 1) * rowHeight;
  const place = (section: number, k: number): Point => ({
    x: firstX + (k + 0.5) * pitch,
    y: section === 0 ? top : bottom,
  });
  const rack = (k: number): Point => ({ x: rackX, y: top + k * rowHeight });
  const lines: BarPlace[] = [];
  const units: UnitPlace[] = [];

  sections.forEach(({ id, order }, s) => {
    order.forEach((unit, k) => {
      units.push({ id: unit, node: `${id}.${unit}`, at: place(s, k), side: s === 0 ? -1 : 1 });
      if (k > 0)
        lines.push({
          id: `${id}.${order[k - 1]}-${unit}`,
          path: [place(s, k - 1), place(s, k)],
          closed: true,
        });
    });
  });
  for (let k = 1; k < sleds.length; k += 1)
    lines.push({ id: `rack.${k}-${k + 1}`, path: [rack(k - 1), rack(k)], closed: true });
  for (const link of bars.links) {
    const s = sections.findIndex(({ id }) => id === link.section);
    const from = place(s, link.place - 1);
    const to = rack(link.rack - 1);
    const path = from.y === to.y ? [from, to] : [from, { x: from.x, y: to.y }, to];
    lines.push({ id: link.id, path, closed: link.closed });
  }
  if (bars.tie !== null && sections.length > 1) {
    const from = place(0, sections[0]!.order.length - 1);
    const to = place(1, sections[1]!.order.length - 1);
    const x = Math.min(width - 14, Math.max(from.x, to.x) + 0.5 * pitch);
    lines.push({
      id: bars.tie.id,
      path: [from, { x, y: from.y }, { x, y: to.y }, to],
      closed: bars.tie.closed,
    });
  }
  const middle = { left: firstX + 2.9 * pitch, right: width - pitch, top: top + 44, bottom: bottom - 44 };
  return {
    width,
    height: bottom + room,
    box,
    rackX,
    rackTop: top,
    rowHeight,
    bars: lines,
    units,
    sleds: sleds.map(({ id }, k) => ({ id, node: id, at: rack(k), side: 0 })),
    sectionLabels: sections.map(({ id, order }, s) => {
      // A link bar that turns behind the fourth place lies where its name would stand.
      const isAtEnd = isCrowded || bars.links.some(({ section, place: at }) => section === id && at > 4);
      return {
        text: `section ${id}`,
        x: place(s, isAtEnd ? order.length - 1 : 3).x,
        y: s === 0 ? top + 30 : bottom - 20,
        isAtEnd,
      };
    }),
    isCrowded,
    middle:
      middle.bottom - middle.top < leastMiddle || lines.some(({ path }) => passesThrough(path, middle))
        ? null
        : middle,
  };
}

/** Whether a path of upright and lying stretches touches the room. */
function passesThrough(path: readonly Point[], { left, right, top, bottom }: Room): boolean {
  return path.slice(1).some((to, k) => {
    const from = path[k]!;
    const [x0, x1] = [Math.min(from.x, to.x), Math.max(from.x, to.x)];
    const [y0, y1] = [Math.min(from.y, to.y), Math.max(from.y, to.y)];
    return x1 > left && x0 < right && y1 > top && y0 < bottom;
  });
}
