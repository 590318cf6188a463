import type { ErrorBand, MeasuredChannel, MeasuredReport } from '../../analysis/judge/report.ts';
import { endingWith, halfWidthText, withHalfWidth } from '../../analysis/words/interval-text.ts';
import { numberText } from '../../analysis/words/number-text.ts';
import { usualClock } from '../../measured/precision.ts';

/** Bands of a run's ripple end here [Hz]. */
const ownTop_Hz = 300;
/** 95 % of a normal number lies within so many deviations. */
const within95 = 1.96;

/** A measurement beside the model, for people. */
export function measuredText(m: MeasuredReport): string {
  const half_s = m.at_interval_s === null ? 0 : (m.at_interval_s[1] - m.at_interval_s[0]) / 2;
  const place = endingWith(m.at_s, half_s, 'time');
  const how = {
    given: 'as given',
    found: `found by ${m.by} to ± ${halfWidthText(half_s, 'time')} (95 %): correlation ${m.correlation_ratio?.toFixed(3)}, confidence ${m.confidence_ratio?.toFixed(2)}`,
    assumed: 'assumed: nothing is moved',
  }[m.aligned];
  const lines = [
    `measured  ${m.file} (SHA-256 ${m.sha256.slice(0, 12)}…), first stamp at ${place} of the run, ${how}`,
  ];
  if (m.clock_rate_ratio !== null) {
    const ppm = 1e6 * Math.abs(m.clock_rate_ratio);
    const half_ppm = 1e6 * within95 * (m.clock_rate_error_ratio ?? 0);
    const pace = m.clock_rate_ratio > 0 ? 'slow' : 'fast';
    lines.push(
      `  its clock runs ${withHalfWidth(ppm, half_ppm, 'count')} ppm ${pace} against the run, taken out (95 %)`,
    );
  }
  if (m.aligned === 'found' && m.clock_rate_ratio === null)
    lines.push(`  its clock is not told apart: taken to run within ${1e6 * usualClock} ppm of the run's`);
  for (const warning of m.warnings) lines.push(`  warning: ${warning}`);
  const bands = bandsShown(m);
  const head = [
    'channel',
    'bias',
    'gain',
    'RMS',
    'peak',
    'at',
    'swing',
    ...bands.map((b) => `${b.low_Hz}–${b.high_Hz} Hz`),
  ];
  const rows = m.channels.map((channel) => rowOf(channel, bands.length));
  const widths = head.map((word, c) => Math.max(word.length, ...rows.map((row) => row[c]!.length)));
  for (const row of rows.length === 0 ? [] : [head, ...rows]) {
    lines.push(
      `  ${row.map((cell, c) => (c === 0 ? cell.padEnd(widths[c]!) : cell.padStart(widths[c]!))).join('  ')}`,
    );
  }
  if (rows.length > 0) lines.push('  errors are measured less simulated; by band their RMS');
  lines.push(...m.channels.flatMap(sensorLine));
  return [...lines, ...m.remarks.map((line) => `  ${line}`)].join('\n');
}

/** Where a sensor is declared: which, and whether its class explains the bias. */
function sensorLine({ channel, unit, sensor, bias, allowed_bias }: MeasuredChannel): string[] {
  if (sensor === null) return [];
  const shown = `  ${channel} is compared as a ${sensor} shows it`;
  const text = numberText(allowed_bias, unit === 'ratio' ? '' : unit);
  const within = Math.abs(bias) <= allowed_bias ? 'within' : 'more than';
  return [`${shown}; its bias is ${within} what its class allows, ± ${text}`];
}

/** Bands up to the last that a channel reaches, and the run's own. */
function bandsShown({ channels }: MeasuredReport): readonly ErrorBand[] {
  const all = channels[0]?.bands ?? [];
  const reached = all.filter(
    (band, k) => band.high_Hz <= ownTop_Hz || channels.some(({ bands }) => bands[k]?.rms != null),
  );
  return all.slice(0, reached.length);
}

function rowOf(c: MeasuredChannel, bands: number): string[] {
  const text = (value: number) => numberText(value, c.unit === 'ratio' ? '' : c.unit);
  return [
    c.channel,
    text(c.bias),
    c.gain_ratio === null ? '–' : c.gain_ratio.toFixed(3),
    text(c.rms),
    text(c.peak),
    numberText(c.peak_s, 's'),
    text(c.swing),
    ...c.bands.slice(0, bands).map(({ rms }) => (rms === null ? '–' : text(rms))),
  ];
}
