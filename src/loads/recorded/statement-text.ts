import { formatPercent, formatQuantity } from '../../quantity.ts';
import { boxcarGain } from './bandwidth.ts';
import { editSentence } from './replay-sentences.ts';
import type { ChannelQuality, QualityStatement } from './statement.ts';

/** Runs of one value that are long enough to be named. */
const notableRun = 10;
const notableFlatTop = 3;
/** Share of repeated samples from which a sensor may renew slower than it is read. */
const notableRepeats = 0.5;

/** The quality statement for people: figures first, then what was taken for granted and what was changed. */
export function statementText(s: QualityStatement): string {
  const power = (value: number) => formatQuantity(value, 'power', 4);
  const time = (value: number) => formatQuantity(value, 'time', 4);
  const interval_s = 1 / s.rate_median_Hz;
  const half_Hz = s.bandwidth_Hz / 2;
  const facts: [string, string][] = [
    ['file', s.file],
    ['SHA-256', s.sha256],
    ['rows', `${s.rows}`],
    ['start', s.start ?? 'not stated (relative time)'],
    ['duration', `${s.duration_s.toFixed(3)} s`],
    ['median rate', `${fixed(s.rate_median_Hz)} Hz (of the slowest channel)`],
    [
      'bandwidth',
      `${fixed(s.bandwidth_Hz)} Hz (0.44 of the rate: a mean over ${time(interval_s)} has lost 3 dB there)`,
    ],
    [
      '',
      `a swing at ${fixed(half_Hz)} Hz shows with ${formatPercent(boxcarGain(half_Hz, interval_s))} of its size`,
    ],
    [
      'gaps',
      s.gaps_count === 0
        ? 'none longer than 5 median intervals'
        : `${s.gaps_count}, ${time(s.gap_total_s)} in all, longer than 5 median intervals`,
    ],
    ['duplicates', `${s.duplicates_count}`],
    ['unsorted', `${s.unsorted_count} rows before the row above`],
  ];
  for (const c of s.channels) {
    facts.push([
      `channel ${c.name}`,
      `mean ${power(c.mean_W)}, ${power(c.min_W)} to ${power(c.max_W)}, ${formatQuantity(c.energy_J, 'energy', 5)}`,
    ]);
    facts.push([
      '',
      `${c.samples} samples, ${time(c.interval_min_s)} to ${time(c.interval_max_s)} apart${c.resolution_W === null ? ', all equal' : `, steps of ${power(c.resolution_W)} and more`}`,
    ]);
    for (const line of suspicions(c)) facts.push(['', line]);
  }
  facts.push([
    'total',
    `mean ${power(s.total.mean_W)}, ${power(s.total.min_W)} to ${power(s.total.max_W)}, ${formatQuantity(s.total.energy_J, 'energy', 5)}`,
  ]);
  const width = Math.max(...facts.map(([name]) => name.length)) + 2;
  return [
    ...facts.map(([name, value]) => `${name.padEnd(width)}${value}`),
    ...s.inferred.map((line) => `Taken: ${line}`),
    ...(s.edits.length === 0 ? ['Nothing was edited.'] : s.edits.map(editSentence)),
  ].join('\n');
}

function suspicions(c: ChannelQuality): string[] {
  const lines: string[] = [];
  if (c.stale_count >= notableRun) {
    lines.push(`stale: one value ${c.stale_count} times, ${formatQuantity(c.stale_s, 'time', 3)}`);
  }
  if (c.flat_top_count >= notableFlatTop) {
    lines.push(
      `flat top: the highest value ${c.flat_top_count} times in a row, the sensor may be at its end`,
    );
  }
  if (c.zero_count > 0) {
    lines.push(`${c.zero_count} samples of exactly 0 W, kept: a dropout may have been written so`);
  }
  if (c.repeat_ratio > notableRepeats) {
    lines.push(
      `${formatPercent(c.repeat_ratio)} of the samples repeat the one before: the sensor may renew slower than it is read, and show less than the bandwidth says`,
    );
  }
  return lines;
}

function fixed(value: number): string {
  return String(Number(value.toPrecision(4)));
}
