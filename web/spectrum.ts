/** Spectrum of the AC power to 300 Hz on a log axis, with the four bands, their ripple and their limits. */
import { axisBottom, axisLeft, scaleLinear, scaleLog, select } from 'd3';
import { withoutLine } from '../src/analysis/signal/detrend.ts';
import { spectrumOf } from '../src/analysis/signal/spectrum.ts';
import type { Bundle } from '../src/bundle/format.ts';
import type { Stream } from '../src/engine/result.ts';
import { html, svg } from './dom.ts';
import type { Lens } from './lens.ts';
import { withUnit } from './numbers.ts';
import { axisText, gutter, roomy, size } from './sheet.ts';
import { ink } from './theme.ts';
import { watchWidth } from './width.ts';

const height_px = 240;
const foot_px = 26;
const lowest_Hz = 0.05;
const highest_Hz = 300;

/** Peak to peak of each bin over the mean. */
interface Lines {
  readonly bin_Hz: number;
  readonly ripple: Float64Array;
  readonly words: string;
}

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
  host.append(
    html('header', {}, html('h3', {}, 'AC spectrum'), html('p', {}, note)),
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
    const width = Math.max(50, outer - gutter - 22);
    const x = scaleLog([lowest_Hz, highest_Hz], [0, width]);
    const top =
      1.12 *
      Math.max(0.02, ...bands.map(({ ripple, limit }) => Math.max(ripple ?? 0, limit ?? 0)), peak(lines));
    const y = scaleLinear([0, top], [height_px - foot_px, 6]);
    size(canvas, width, height_px);
    canvas.style.left = `${gutter}px`;
    const pen = canvas.getContext('2d')!;
    pen.clearRect(0, 0, width, height_px);
    const ticks = y.ticks(5);
    pen.strokeStyle = ink('line');
    pen.beginPath();
    for (const v of ticks) {
      pen.moveTo(0, Math.round(y(v)) + 0.5);
      pen.lineTo(width, Math.round(y(v)) + 0.5);
    }
    pen.stroke();
    for (const band of bands) drawBand(pen, band, x, y);
    if (lines !== null) drawLines(pen, lines, x, y, width);
    const frame = select(axes).attr('width', gutter + width + 22);
    frame
      .selectAll<SVGGElement, null>('g.left')
      .data([null])
      .join('g')
      .attr('class', 'left')
      .attr('transform', `translate(${gutter},0)`)
      .call(
        axisLeft<number>(y)
          .tickValues(ticks)
          .tickSize(0)
          .tickPadding(8)
          .tickFormat((v) => axisText(v, 'ratio', ticks)),
      );
    frame
      .selectAll<SVGGElement, null>('g.foot')
      .data([null])
      .join('g')
      .attr('class', 'foot')
      .attr('transform', `translate(${gutter},${height_px - foot_px})`)
      .call(
        axisBottom<number>(x)
          .tickValues(roomy([0.1, 0.5, 1, 3, 10, 20, 50, 100, 300], x, 44))
          .tickSize(5)
          .tickFormat((f) => `${f} Hz`),
      );
  };
  watchWidth(plot, (now) => {
    outer = now;
    draw();
  });
  lens.watch(({ look }) => {
    if (look && outer > 0) draw();
  });
}

interface BandRow {
  readonly low_Hz: number;
  readonly high_Hz: number;
  readonly ripple: number | null;
  readonly limit: number | null;
  readonly word: string;
}

function bandsOf({ report }: Bundle): readonly BandRow[] {
  return report.bands.map(({ low_Hz, high_Hz, ripple_ratio }) => {
    const finding = report.findings.find(({ id }) => id === `ac-ripple-${low_Hz}-${high_Hz}`);
    const word = finding === undefined ? 'reported, not limited' : finding.verdict.replaceAll('_', ' ');
    return { low_Hz, high_Hz, ripple: ripple_ratio, limit: finding?.limit ?? null, word };
  });
}

/**
 * A periodic load over whole periods needs no window: its tones fall on bins. Otherwise the mean line is taken
 * out and a Hann window keeps strong tones from hiding weak ones.
 */
function linesOf(stream: Stream, { report, scenario }: Bundle): Lines | null {
  const first = Math.max(0, Math.round((report.window_s.from - stream.from_s) * stream.rate_Hz));
  const last = Math.min(
    stream.samples.length,
    Math.round((report.window_s.to - stream.from_s) * stream.rate_Hz),
  );
  if (last - first < 16) return null;
  let own = stream.samples.slice(first, last);
  const mean = own.reduce((sum, value) => sum + value, 0) / own.length;
  if (!(mean > 0)) return null;
  const period_s =
    scenario.load.kind === 'pulse-train' && scenario.load.jitter_s === 0 ? scenario.load.period_s : null;
  const duration_s = own.length / stream.rate_Hz;
  const periods = period_s === null ? 0 : Math.floor(duration_s / period_s + 1e-6);
  if (period_s !== null && periods >= 2)
    own = own.subarray(0, Math.round(periods * period_s * stream.rate_Hz));
  const whole = periods >= 2;
  const spectrum = spectrumOf(whole ? own : withoutLine(own), stream.rate_Hz, whole ? 'rectangular' : 'hann');
  const ripple = spectrum.amplitude.map((amplitude, k) => (k === 0 ? 0 : (2 * amplitude) / mean));
  const words = whole
    ? `${periods} whole periods, rectangular window, bins of ${spectrum.bin_Hz.toFixed(4)} Hz`
    : `Hann window after taking out a straight line, bins of ${spectrum.bin_Hz.toFixed(4)} Hz`;
  return { bin_Hz: spectrum.bin_Hz, ripple, words };
}

function peak(lines: Lines | null): number {
  return lines === null ? 0 : lines.ripple.reduce((top, value) => Math.max(top, value), 0);
}

type Scale = (value: number) => number;

function drawBand(pen: CanvasRenderingContext2D, band: BandRow, x: Scale, y: Scale): void {
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
function drawLines(pen: CanvasRenderingContext2D, lines: Lines, x: Scale, y: Scale, width: number): void {
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
