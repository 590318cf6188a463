/** A plot as it is taken from the page: drawn again as vectors at any width, or in numbers. */
import type { Table } from './table.ts';

/** What of the run is drawn, and the moment whose values are written beside the names. */
export interface View {
  readonly from_s: number;
  readonly to_s: number;
  readonly cursor_s: number;
}

export interface Plot {
  /** Names the files that are made of it. */
  readonly id: string;
  readonly title: string;
  readonly note: string;
  /** Where its menu stands. */
  readonly controls: HTMLElement;
  /** Where its table stands: after this. */
  readonly drawing: HTMLElement;
  picture(width: number, view: View): SVGSVGElement;
  table(): Table;
}

const plots: Plot[] = [];

/** Every plot of the page names itself here once, in the order in which it stands. */
export function addPlot(plot: Plot): void {
  plots.push(plot);
}

/** Those that have left the page are no plots of it any more, and what they hold is let go. */
export function forgetGone(): void {
  plots.splice(0, plots.length, ...plots.filter(({ drawing }) => drawing.isConnected));
}

export function allPlots(): readonly Plot[] {
  return plots;
}
