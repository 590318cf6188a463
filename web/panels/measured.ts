/** Measured over simulated: a panel for each measured channel, the measurement as marks over the model's line. */
import { bisector } from 'd3';
import type { MeasuredChannel, MeasuredReport } from '../../src/analysis/judge/report.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';
import type { Frame } from '../frame.ts';
import { outsideWindow, type Shade } from '../judged-time.ts';
import type { Lens } from '../lens.ts';
import { moment, withUnit } from '../numbers.ts';
import { strokeTrace } from '../paint.ts';
import { makePanel } from '../plot.ts';
import type { Record } from '../record.ts';
import type { Series } from '../series.ts';
import { ink } from '../theme.ts';

const placed: Readonly<{ [K in MeasuredReport['aligned']]: string }> = {
  given: 'as given',
  found: 'found by comparing',
  assumed: 'assumed',
};

export function measuredPanels(host: HTMLElement, lens: Lens, record: Record, { report }: Bundle): void {
  const { measured } = report;
  if (measured === undefined) return;
  const shades = outsideWindow(report, lens.whole_s);
  if (measured.warnings.length > 0) {
    const warnings = measured.warnings.map((warning) => html('li', {}, warning));
    host.append(
      html(
        'ul',
        { class: 'measured-warnings', 'aria-label': 'before the comparison is trusted' },
        ...warnings,
      ),
    );
  }
  for (const channel of measured.channels) {
    const simulated = record.series(channel.channel);
    if (simulated !== null) measuredPanel(host, lens, record, measured, channel, simulated, shades);
  }
}

function measuredPanel(
  host: HTMLElement,
  lens: Lens,
  record: Record,
  measured: MeasuredReport,
  channel: MeasuredChannel,
  simulated: Series,
  shades: readonly Shade[],
): void {
  const unit = channel.unit === 'ratio' ? '' : channel.unit;
  const { trace, bias, rms, peak, peak_s, sensor } = channel;
  const seen = sensor === null ? '' : ` as a ${sensor} shows it`;
  makePanel(host, lens, record, {
    id: `measured-${channel.channel.replace(/[^\w-]/g, '-')}`,
    title: `Measured: ${channel.channel}`,
    note: `${measured.file} over the model${seen}; begins at ${moment(measured.at_s, 3)}, ${placed[measured.aligned]}; measured less simulated: RMS ${withUnit(rms, unit)}, bias ${withUnit(bias, unit)}, largest ${withUnit(peak, unit)} at ${moment(peak_s, 3)}`,
    height: 150,
    unit,
    series: () => [simulated],
    include: [Math.min(...trace.low), Math.max(...trace.high)],
    shades,
    table: () => ({
      over: { name: 'time_s', values: trace.time_s },
      columns: [
        { name: `${channel.channel}.measured.min`, values: trace.low },
        { name: `${channel.channel}.measured.max`, values: trace.high },
        { name: `${channel.channel}.simulated`, values: trace.simulated },
      ],
    }),
    draw(frame) {
      strokeTrace(frame, simulated, { tint: 'copper', width: 1.4 });
      strokeMarks(frame, trace);
    },
    rows(bucket) {
      const k = nearest(trace.time_s, (record.edges_s[bucket]! + record.edges_s[bucket + 1]!) / 2);
      const value = k === null ? Number.NaN : (trace.low[k]! + trace.high[k]!) / 2;
      const model = record.mean(channel.channel, bucket);
      return [
        { mark: 'solid', tint: 'copper', name: 'simulated', value: withUnit(model, unit) },
        { mark: 'dotted', tint: 'ink', name: 'measured', value: k === null ? '–' : withUnit(value, unit) },
        {
          mark: 'thin',
          tint: 'muted',
          name: 'measured less simulated',
          value: k === null ? '–' : withUnit(value - model, unit),
        },
      ];
    },
  });
}

/** Small crosses, or upright strokes from the lowest to the highest of what a point stands for. */
function strokeMarks({ pen, y, stretch }: Frame, trace: MeasuredChannel['trace']): void {
  const { from_s, to_s, width } = stretch;
  const scale = width / (to_s - from_s);
  pen.save();
  pen.strokeStyle = ink('ink');
  pen.lineWidth = 1.2;
  pen.beginPath();
  for (let k = 0; k < trace.time_s.length; k += 1) {
    const x = (trace.time_s[k]! - from_s) * scale;
    if (x < -4 || x > width + 4) continue;
    const [low, high] = [y(trace.low[k]!), y(trace.high[k]!)];
    pen.moveTo(x, low + 1.5);
    pen.lineTo(x, high - 1.5);
    pen.moveTo(x - 1.5, (low + high) / 2);
    pen.lineTo(x + 1.5, (low + high) / 2);
  }
  pen.stroke();
  pen.restore();
}

const nearestOf = bisector<number, number>((t_s) => t_s).center;

/** Point nearest to a moment, null where none lies within three intervals. */
function nearest(times_s: readonly number[], t_s: number): number | null {
  if (times_s.length === 0) return null;
  const k = nearestOf(times_s, t_s);
  const interval_s = times_s.length < 2 ? 0 : (times_s.at(-1)! - times_s[0]!) / (times_s.length - 1);
  return Math.abs(times_s[k]! - t_s) <= 3 * interval_s ? k : null;
}
