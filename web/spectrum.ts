/** Spectrum of the AC power to 300 Hz on a log axis, with the four bands, their ripple and their limits. */
import type { Bundle } from '../src/bundle/format.ts';
import { html, svg } from './dom.ts';
import type { Lens } from './lens.ts';
import { withUnit } from './numbers.ts';
import { gutter, size } from './sheet.ts';
import {
  drawSpectrum,
  drawSpectrumAxes,
  height_px,
  highest_Hz,
  lowest_Hz,
  spectrumScales,
} from './spectrum-drawing.ts';
import { bandsOf, type Lines, linesOf } from './spectrum-lines.ts';
import { pictureOf, plotWidth } from './taken/picture.ts';
import { addPlot } from './taken/plot.ts';
import type { Table } from './taken/table.ts';
import { watchWidth } from './width.ts';

const title = 'AC spectrum';
/** Right of the plot, for the last tick's label [px]. */
const right_px = 22;

export function showSpectrum(host: HTMLElement, lens: Lens, bundle: Bundle): void {
  const { report } = bundle;
  const stream = bundle.result.streams.find(({ channel }) => channel === 'total.ac_power_W');
  const lines = stream === undefined ? null : linesOf(stream, bundle);
  const note =
    lines === null
      ? 'the run is too short for a spectrum'
      : `each line is one tone, peak to peak, relative to the mean power; ${lines.words}${report.left_out.length === 0 ? '' : ', over the whole window, also where bands are not judged'}`;
  const canvas = html('canvas', { 'aria-hidden': 'true' });
  const axes = svg('svg', { class: 'axis', height: height_px, 'aria-hidden': 'true' });
  const plot = html('div', { class: 'plot still', style: `height:${height_px}px` }, canvas, axes);
  const bands = bandsOf(bundle);
  const controls = html('div', { class: 'controls' });
  host.append(
    html('header', {}, html('h3', {}, title), html('p', {}, note), controls),
    plot,
    html(
      'table',
      { class: 'bands' },
      html('tr', {}, ...['band', 'ripple', 'limit', ''].map((head) => html('th', { scope: 'col' }, head))),
      ...bands.map(({ low_Hz, high_Hz, ripple, limit, word }) =>
        html(
          'tr',
          {},
          html('th', { scope: 'row' }, `${low_Hz}–${high_Hz} Hz`),
          html('td', {}, withUnit(ripple, 'ratio')),
          html('td', {}, limit === null ? 'none' : withUnit(limit, 'ratio')),
          html('td', {}, word),
        ),
      ),
    ),
  );
  let outer = 0;
  const draw = (): void => {
    const width = widthIn(outer);
    const scales = spectrumScales(bands, lines, width);
    size(canvas, width, height_px);
    canvas.style.left = `${gutter}px`;
    const pen = canvas.getContext('2d')!;
    pen.clearRect(0, 0, width, height_px);
    drawSpectrum(pen, scales, bands, lines);
    axes.setAttribute('width', String(gutter + width + right_px));
    drawSpectrumAxes(axes, scales);
  };
  watchWidth(plot, (now) => {
    outer = now;
    draw();
  });
  lens.watch(({ look }) => {
    if (look && outer > 0) draw();
  });
  addPlot({
    id: 'spectrum',
    title,
    note,
    controls,
    drawing: plot,
    picture: (width) =>
      pictureOf({
        title,
        width,
        height: height_px,
        legend: [],
        draw(pen, host) {
          const scales = spectrumScales(bands, lines, plotWidth(width));
          drawSpectrum(pen, scales, bands, lines);
          drawSpectrumAxes(host, scales);
        },
      }),
    table: () => spectrumTable(lines),
  });
}

function widthIn(outer: number): number {
  return Math.max(50, outer - gutter - right_px);
}

/** Every tone that is drawn. */
function spectrumTable(lines: Lines | null): Table {
  const all = Array.from(lines?.ripple ?? [], (ripple, k) => ({ f_Hz: k * (lines?.bin_Hz ?? 0), ripple }));
  const drawn = all.filter(({ f_Hz }) => f_Hz >= lowest_Hz && f_Hz <= highest_Hz);
  return {
    over: { name: 'frequency_Hz', values: drawn.map(({ f_Hz }) => f_Hz) },
    columns: [{ name: 'peak_to_peak_of_mean_ratio', values: drawn.map(({ ripple }) => ripple) }],
  };
}
