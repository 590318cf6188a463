/** What a panel hands to whatever draws on it. */
import type { ScaleLinear } from 'd3';
import type { Outline, Stretch } from './columns.ts';

/** What a panel draws on. */
export interface Frame {
  readonly pen: CanvasRenderingContext2D;
  readonly width: number;
  readonly height: number;
  readonly stretch: Stretch;
  readonly edges_s: Float64Array;
  /** Working space for one outline at a time. */
  readonly outline: Outline;
  readonly y: ScaleLinear<number, number>;
  /** Where words stand already in this drawing. */
  readonly words: Box[];
}

/** A line of words [px]. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
}
