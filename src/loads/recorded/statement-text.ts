import { counted } from '../../base/counted.ts';
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import { signSentence } from '../../samples/signs/sign.ts';
import { bandwidthOfRate, boxcarGain, telling_ratio } from './bandwidth.ts';
import { alignmentSentence, editSentence } from './replay-sentences.ts';
import type { ChannelQuality, QualityStatement } from './statement.ts';

/** Runs of one value that are long enough to be named. */
const notableRun = 10;
const notableFlatTop = 3;
/** Share of repeated samples from which a sensor may renew slower than it is read. */
const notableRepeats = 0.5;

const boundBy = {
  rate: 'rate',
  'mean rate': 'mean rate',
  renewal: 'rate at which values renew',
  averaging: "sensor's averaging rate",
} as const;

/** What no reader can tell from the file alone. */
const unseen =
  'Cannot be seen in a file: rows taken out where stamps were renumbered, samples in another order, a wrong scale or unit of all of it, noise that was smoothed away.';

/** The quality statement for people: what is suspect first, then figures, then what was taken for granted and what was changed. */
export function statementText(s: QualityStatement): string {
  const power = (value: number) => formatQuantity(value, 'power', 4);
  const time = (value: number) => formatQuantity(value, 'time', 4);
  const shown_s = bandwidthOfRate / s.bandwidth_Hz;
  const half_Hz = s.bandwidth_Hz / 2;
  const facts: [string, string][] = [
    ['file', s.file],
    ['SHA-256', s.sha256],
    ['rows', `${s.rows}`],
    ['start', s.start ?? 'not stated (relative time)'],
    ['duration', `${s.duration_s.toFixed(3)} s`],
    ['median rate', `${fixed(s.rate_median_Hz)} Hz (of the slowest channel)${meanRate(s)}`],
    [
      'bandwidth',
      s.bandwidth_by === 'AC side'
        ? `${fixed(s.bandwidth_Hz)} Hz: the power supply filters what is faster`
        : `${fixed(s.bandwidth_Hz)} Hz (0.44 of the ${boundBy[s.bandwidth_by]}: a mean over ${time(shown_s)} has lost 3 dB there)`,
    ],
    [
      '',
      `a swing at ${fixed(half_Hz)} Hz shows with ${formatPercent(boxcarGain(half_Hz, shown_s))} of its size`,
    ],
    ['coverage', `${formatPercent(s.coverage_ratio)} of the duration`],
    [
      'gaps',
      s.gaps_count === 0
        ? 'none: no interval above 5 medians, or above 1.5 where a sample was left out'
        : `${s.gaps_count}, ${time(s.gap_total_s)} in all: intervals above 5 medians, or above 1.5 where a sample was left out`,
    ],
    ['duplicates', `${s.duplicates_count}`],
    ['unsorted', `${counted(s.unsorted_count, 'row')} before the row above`],
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
    facts.push([
      '',
      `intervals: 5 % below ${time(c.interval_5_s)}, median ${time(c.interval_median_s)}, 95 % below ${time(c.interval_95_s)}, 99 % below ${time(c.interval_99_s)}`,
    ]);
    for (const line of suspicions(c)) facts.push(['', line]);
  }
  facts.push([
    'total',
    `mean ${power(s.total.mean_W)}, ${power(s.total.min_W)} to ${power(s.total.max_W)}, ${formatQuantity(s.total.energy_J, 'energy', 5)}`,
  ]);
  const width = Math.max(...facts.map(([name]) => name.length)) + 2;
  return [
    ...s.signs.map((sign) => `Suspect: ${signSentence(sign)}`),
    ...facts.map(([name, value]) => `${name.padEnd(width)}${value}`),
    ...s.warnings.map((line) => `Warning: ${line}`),
    ...s.alignment.map(alignmentSentence),
    ...s.inferred.map((line) => `Taken: ${line}`),
    ...(s.edits.length === 0 ? ['Nothing was edited.'] : s.edits.map(editSentence)),
    unseen,
  ].join('\n');
}

/** The mean rate, where it is not the median: stamps are rounded, or come unevenly. */
function meanRate({ rate_median_Hz, rate_mean_Hz }: QualityStatement): string {
  if (Math.abs(rate_mean_Hz / rate_median_Hz - 1) < telling_ratio) return '';
  return `, mean rate ${fixed(rate_mean_Hz)} Hz: stamps are rounded or come unevenly`;
}

function suspicions(c: ChannelQuality): string[] {
  const lines: string[] = [];
  if (c.stale_count >= notableRun) {
    lines.push(`stale: one value ${counted(c.stale_count, 'time')}, ${formatQuantity(c.stale_s, 'time', 3)}`);
  }
  if (c.flat_top_count >= notableFlatTop) {
    lines.push(
      `flat top: the highest value ${counted(c.flat_top_count, 'time')} in a row, the sensor may be at its end`,
    );
  }
  if (c.zero_count > 0) {
    lines.push(`${counted(c.zero_count, 'sample')} of exactly 0 W, kept: a dropout may have been written so`);
  }
  if (c.renewal_s !== null) {
    lines.push(
      `values renew every ${formatQuantity(c.renewal_s, 'time', 3)} only, slower than they are read (--fresh where the load itself does so)`,
    );
  } else if (c.repeat_ratio > notableRepeats) {
    lines.push(
      `${formatPercent(c.repeat_ratio)} of the samples repeat the one before: the sensor may renew slower than it is read, and show less than the bandwidth says`,
    );
  }
  return lines;
}

function fixed(value: number): string {
  return String(Number(value.toPrecision(4)));
}
