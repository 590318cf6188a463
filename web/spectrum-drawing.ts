/** Draws the spectrum with any pen: grid, bands with ripple and limit, tones on a log axis; and its two axes. */
import { scaleLinear, scaleLog } from 'd3';
import { withUnit } from './numbers.ts';
import type { Pen } from './pen/pen.ts';
import { roomy } from './sheet.ts';
import type { BandRow, Lines } from './spectrum-lines.ts';
import { drawAcross, drawStillAxes, type Scale } from './still-axes.ts';
import { ink } from './theme.ts';

export const height_px = 240;
const foot_px = 26;
/** What is drawn and told of it [Hz]. */
export const lowest_Hz = 0.05;
export const highest_Hz = 300;

export interface SpectrumScales {
  readonly x: Scale;
  readonly y: Scale;
  readonly ticks: readonly number[];
}

export function spectrumScales(
  bands: readonly BandRow[],
  lines: Lines | null,
  width: number,
): SpectrumScales {
  const x = scaleLog([lowest_Hz, highest_Hz], [0, width]);
  const top =
    1.12 *
    Math.max(0.02, ...bands.map(({ ripple, limit }) => Math.max(ripple ?? 0, limit ?? 0)), peak(lines));
  const y = scaleLinear([0, top], [height_px - foot_px, 6]);
  return { x, y, ticks: y.ticks(5) };
}

export function drawSpectrum(
  pen: Pen,
  { x, y, ticks }: SpectrumScales,
  bands: readonly BandRow[],
  lines: Lines | null,
): void {
  const width = x.range()[1]!;
  drawAcross(pen, { scale: y, ticks }, width);
  for (const band of bands) drawBand(pen, band, x, y);
  if (lines !== null) drawLines(pen, lines, x, y, width);
}

export function drawSpectrumAxes(host: SVGElement, { x, y, ticks }: SpectrumScales): void {
  const marks = roomy([0.1, 0.5, 1, 3, 10, 20, 50, 100, 300], x, 44);
  drawStillAxes(
    host,
    { scale: y, ticks, unit: 'ratio' },
    { scale: x, ticks: marks, top: height_px - foot_px, words: (f) => `${f} Hz` },
  );
}

function peak(lines: Lines | null): number {
  return lines === null ? 0 : lines.ripple.reduce((top, value) => Math.max(top, value), 0);
}

function drawBand(pen: Pen, band: BandRow, x: Scale, y: Scale): void {
  const [left, right] = [x(band.low_Hz), x(band.high_Hz)];
  pen.save();
  pen.strokeStyle = ink('line');
  pen.beginPath();
  pen.moveTo(Math.round(left) + 0.5, 6);
  pen.lineTo(Math.round(left) + 0.5, y(0));
  pen.stroke();
  if (band.ripple !== null) {
    pen.fillStyle = ink('band');
    pen.globalAlpha = 0.55;
    pen.fillRect(left + 1, y(band.ripple), right - left - 2, y(0) - y(band.ripple));
    pen.globalAlpha = 1;
    pen.fillStyle = ink('ink');
    pen.fillRect(left + 1, y(band.ripple) - 1, right - left - 2, 2);
  }
  pen.font = '11px system-ui, sans-serif';
  pen.textAlign = 'center';
  // A limit stands where the band was judged.
  if (band.limit !== null && band.ripple !== null) {
    pen.strokeStyle = ink('fail');
    pen.setLineDash([6, 4]);
    pen.lineWidth = 1.5;
    pen.beginPath();
    pen.moveTo(left + 1, y(band.limit));
    pen.lineTo(right - 1, y(band.limit));
    pen.stroke();
    pen.fillStyle = ink('fail');
    pen.fillText(`limit ${withUnit(band.limit, 'ratio')}`, (left + right) / 2, y(band.limit) - 5);
  }
  pen.restore();
}

/** Where bins crowd, the highest of each pixel column is drawn. */
function drawLines(pen: Pen, lines: Lines, x: Scale, y: Scale, width: number): void {
  const highest = new Float64Array(Math.ceil(width) + 1);
  for (let k = 1; k < lines.ripple.length; k += 1) {
    const f = k * lines.bin_Hz;
    if (f < lowest_Hz || f > highest_Hz) continue;
    const column = Math.round(x(f));
    if (lines.ripple[k]! > highest[column]!) highest[column] = lines.ripple[k]!;
  }
  pen.save();
  pen.strokeStyle = ink('copper');
  pen.fillStyle = ink('copper');
  pen.lineWidth = 1.5;
  pen.beginPath();
  highest.forEach((ripple, column) => {
    if (ripple === 0) return;
    pen.moveTo(column + 0.5, y(0));
    pen.lineTo(column + 0.5, y(ripple));
  });
  pen.stroke();
  pen.restore();
}
