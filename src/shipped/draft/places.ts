/** Where the units of a drafted cabinet stand: sections, the links to the rack, the order in which places are filled. */
import { type Batch, countOf, type Draft, totalOf } from './answers.ts';

export interface Place {
  readonly id: string;
  readonly section: string;
}

export interface Links {
  readonly id: string;
  readonly section: string;
  readonly place: number;
  readonly rack: number;
}

export interface Layout {
  readonly sections: Readonly<Record<string, readonly string[]>>;
  readonly links: readonly Links[];
  /** Units of each kind in their order, with their sections. */
  readonly units: Readonly<Record<PlacedKind, readonly Place[]>>;
  /** As `fill` of a cabinet file takes it, units that are not there yet behind those that are. */
  readonly fill: Readonly<Record<PlacedKind, readonly string[]>>;
}

const kinds = ['shelves', 'trays', 'banks', 'batteries'] as const;

export type PlacedKind = (typeof kinds)[number];

/** What names of units begin with. */
export const letter: Readonly<Record<PlacedKind, string>> = {
  shelves: 'S',
  trays: 'T',
  banks: 'K',
  batteries: 'B',
};

/** Where along its section each kind is spread out, 0 the link end: batteries towards the far one, as in the reference. */
const stretch: Readonly<Record<PlacedKind, readonly [from: number, to: number]>> = {
  shelves: [0, 0.98],
  trays: [0.02, 1],
  banks: [0.3, 0.5],
  batteries: [0.6, 1.02],
};

/** Mean current that one link bar is laid for, 60 % of the rating of a pair of 100 by 10 mm (assumed). */
const linkCurrent_A = 1200;

/** How many units beyond those there are the fill order names: room for a search. */
const spare: Readonly<Record<PlacedKind, (count: number) => number>> = {
  shelves: () => 2,
  trays: (count) => Math.max(8, count),
  banks: () => 2,
  batteries: () => 2,
};

export function layoutOf(draft: Draft): Layout {
  const names = ['A', 'B'].slice(0, draft.sections);
  const units = Object.fromEntries(
    kinds.map((kind) => [kind, placesOf(kind, countOf(draft[kind]), names)]),
  ) as Layout['units'];
  const sections = Object.fromEntries(names.map((name) => [name, orderOf(name, units)]));
  return {
    sections,
    links: names.flatMap((name, k) => linksOf(draft, name, k, sections[name]!.length)),
    units,
    fill: Object.fromEntries(
      kinds.map((kind) => [kind, fillOf(kind, draft[kind], units[kind], names)]),
    ) as Layout['fill'],
  };
}

/** The first half in the first section. */
function placesOf(kind: PlacedKind, count: number, sections: readonly string[]): readonly Place[] {
  const each = Math.ceil(count / sections.length);
  return Array.from({ length: count }, (_, k) => ({
    id: `${letter[kind]}${k + 1}`,
    section: sections[Math.floor(k / each)]!,
  }));
}

/** Units of a section from its link end, each kind spread over its stretch. */
function orderOf(section: string, units: Layout['units']): readonly string[] {
  return kinds
    .flatMap((kind) => {
      const own = units[kind].filter((unit) => unit.section === section);
      const [from, to] = stretch[kind];
      return own.map(({ id }, k) => ({ id, at: from + ((to - from) * (k + 0.5)) / own.length }));
    })
    .sort((a, b) => a.at - b.at)
    .map(({ id }) => id);
}

/** Links spread evenly over the places of a section and over its part of the rack; the second section comes from the other end. */
function linksOf(draft: Draft, section: string, k: number, places: number): readonly Links[] {
  const current_A = totalOf(draft.sleds) / draft.nominal_V / draft.sections;
  const sleds = countOf(draft.sleds);
  const own = k === 0 ? Math.ceil(sleds / draft.sections) : Math.floor(sleds / draft.sections);
  const count = Math.max(1, Math.min(Math.max(2, Math.ceil(current_A / linkCurrent_A)), places, own));
  return Array.from({ length: count }, (_, j) => {
    const along = (j + 0.5) / count;
    const rack = Math.floor(along * own) + 1;
    return {
      id: `L${section}${j + 1}`,
      section,
      place: Math.floor(along * places) + 1,
      rack: k === 0 ? rack : sleds + 1 - rack,
    };
  });
}

/**
 * Size after size as they were asked for, each from the link ends, sections in turn; then units that are not there yet, each
 * behind the last of its kind.
 */
function fillOf(
  kind: PlacedKind,
  batches: readonly Batch[],
  units: readonly Place[],
  sections: readonly string[],
): readonly string[] {
  const inTurn = (some: readonly Place[]): readonly string[] => {
    const own = sections.map((name) => some.filter(({ section }) => section === name).map(({ id }) => id));
    const longest = Math.max(...own.map(({ length }) => length));
    return Array.from({ length: longest }, (_, k) => own.flatMap((ids) => ids[k] ?? [])).flat();
  };
  const there = batches.flatMap((_, k) => {
    const before = countOf(batches.slice(0, k));
    return inTurn(units.slice(before, before + batches[k]!.count));
  });
  const last = sections.map((name) => units.filter(({ section }) => section === name).at(-1)?.id);
  const more = Array.from({ length: spare[kind](units.length) }, (_, j) => {
    const k = j % sections.length;
    const id = `${letter[kind]}${units.length + j + 1}`;
    const place = last[k] === undefined ? 'last' : `after ${last[k]}`;
    last[k] = id;
    const feeder = kind === 'shelves' ? ` on F${k + 1}` : '';
    return `${id}${feeder} in ${sections[k]} ${place}`;
  });
  return [...there, ...more];
}
