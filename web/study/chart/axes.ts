/** Axes of a drawing: lines with words and units, left out where they would run into each other; a title for each axis. */
import { svg } from '../../dom.ts';

/** The part of a drawing that holds values [px]. */
export interface Field {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Tick {
  readonly at: number;
  readonly words: string;
}

/** Width of a letter at the size of an axis [px], a little more than the widest digit. */
const letter_px = 6.6;

export function widthOf(words: string): number {
  return words.length * letter_px;
}

/** Ticks of the axis across, with the title under their words; lines over the whole field where `lines`. */
export function across(field: Field, ticks: readonly Tick[], title: string, lines: boolean): SVGElement[] {
  const { left, right, top, bottom } = field;
  const middle = (left + right) / 2;
  return [
    ...ticks.map(({ at }) =>
      svg('line', { class: 'grid', x1: at, x2: at, y1: lines ? top : bottom, y2: bottom + (lines ? 0 : 4) }),
    ),
    ...apart(ticks, right).map(({ at, words }) =>
      svg('text', { x: at, y: bottom + 16, 'text-anchor': 'middle' }, words),
    ),
    svg('text', { class: 'axis-title', x: middle, y: bottom + 33, 'text-anchor': 'middle' }, title),
  ];
}

/** Ticks of the axis upward, with the title above it. */
export function upward(field: Field, ticks: readonly Tick[], title: string): SVGElement[] {
  const { left, right, top } = field;
  return [
    ...ticks.map(({ at }) => svg('line', { class: 'grid', x1: left, x2: right, y1: at, y2: at })),
    ...ticks.map(({ at, words }) => svg('text', { x: left - 7, y: at + 4, 'text-anchor': 'end' }, words)),
    svg('text', { class: 'axis-title', x: 2, y: top - 10 }, title),
  ];
}

/** Of ticks in their order across those whose words stand clear of the one before, and within the drawing. */
export function apart(ticks: readonly Tick[], right: number): readonly Tick[] {
  let free = Number.NEGATIVE_INFINITY;
  return [...ticks]
    .sort((a, b) => a.at - b.at)
    .filter(({ at, words }) => {
      const half = widthOf(words) / 2;
      if (at - half < free || at + half > right + 24) return false;
      free = at + half + 8;
      return true;
    });
}

/** A number of an axis, with the minus sign of print. */
export function number(value: number, digits = 3): string {
  return String(Number(value.toPrecision(digits))).replace('-', '−');
}
