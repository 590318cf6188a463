/** What a time panel shows: its words, its values, what it draws and says at a moment. */
import type { Frame } from '../frame.ts';
import type { Shade } from '../judged-time.ts';
import type { Band } from '../series.ts';
import type { Table } from '../taken/table.ts';
import type { Pin } from './pins.ts';
import { extentOf } from './range.ts';
import type { Row } from './read-out.ts';

export interface PanelSpec {
  readonly id: string;
  readonly title: string;
  readonly note: string;
  readonly height: number;
  readonly unit: string;
  /** What the value axis must hold, and values it holds besides while it is not fitted to the view. */
  series(): readonly Band[];
  readonly include: readonly number[];
  /** Replaces the range of `series`, for example where things are stacked. */
  readonly range?: (first: number, last: number) => readonly [number, number];
  /** The range until it is fitted, where it is not that of all of `series`. */
  readonly whole?: readonly [number, number];
  /** Time that is not judged. */
  readonly shades: readonly Shade[];
  draw(frame: Frame): void;
  rows(bucket: number): readonly Row[];
  /** What is drawn, in numbers. */
  table(): Table;
  /** Worst moments, and the value at which each lies on what is drawn. */
  readonly pins?: readonly Pin[];
  pinned?(pin: Pin, bucket: number): number;
  readonly controls?: readonly HTMLElement[];
}

/** What the values of some buckets reach. */
export function rangeOf(spec: PanelSpec, first: number, last: number): readonly [number, number] {
  return spec.range?.(first, last) ?? extentOf(spec.series(), first, last);
}
