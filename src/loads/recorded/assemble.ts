import { counted } from '../../base/counted.ts';
import { BadInput } from '../../base/problem.ts';
import { formatQuantity } from '../../base/quantity.ts';
import { type Cleaned, clean } from '../../samples/clean.ts';
import { type Gap, gapsOf, mergeGaps } from '../../samples/gaps.ts';
import { missingRows } from '../../samples/missing-rows.ts';
import { scattered } from '../../samples/scattered.ts';
import { cut, firstAbove, medianInterval_s, type Series, trapezoid_J } from '../../samples/series.ts';
import { combined } from '../../samples/signs/combined.ts';
import type { Sampled } from '../../samples/signs/sign.ts';
import { signsOf } from '../../samples/signs/signs-of.ts';
import { runsAgain, summerTimeLeft } from '../../samples/stamp-order.ts';
import { sumRow } from '../../samples/sum-row.ts';
import type { RecordedReading } from '../../scenario/scenario.ts';
import { listed } from '../../scenario/text/nearest.ts';
import type { Decimal } from '../../tables/cells/number-cell.ts';
import { quotedName } from '../../tables/columns/column-report.ts';
import { type Clock, isoOf } from '../../tables/stamps/clock.ts';
import type { ReadTable } from '../../tables/table-reader.ts';
import { type Aligned, alignChannels } from './align-channels.ts';
import { bandwidthOfRate, telling_ratio } from './bandwidth.ts';
import { channelQuality, rangeOf } from './channel-quality.ts';
import type { ChosenColumns } from './choose-columns.ts';
import { derivedAmong } from './derived-names.ts';
import { editsOf, warningsOf } from './edits.ts';
import { bridgedBy } from './invented.ts';
import type { Overruled } from './overruled.ts';
import type { RecordedLoad } from './recorded-load.ts';
import { refuseAveraging, shortAveraging } from './stated-averaging.ts';
import { statedPlace } from './stated-place.ts';
import type { ChannelQuality, QualityStatement } from './statement.ts';
import { sumChannels } from './sum-channels.ts';
import type { RowTaker } from './take-rows.ts';

export interface Parts {
  readonly file: string;
  readonly sha256: string;
  readonly table: ReadTable;
  readonly columns: ChosenColumns;
  readonly clock: Clock;
  readonly reading: RecordedReading;
  readonly taker: RowTaker;
  readonly inferred: readonly string[];
  readonly overruled: Overruled;
}

/** Channels of a sensible recording: beyond this the channel column holds something else. */
const mostChannels = 1024;

type Refuse = (found: string, expected: string, mend: string) => never;

/** Makes a recorded load and its quality statement of the rows taken. */
export function assemble(parts: Parts): RecordedLoad {
  const { taker, columns, file, table } = parts;
  const refuse: Refuse = (found, expected, mend) => {
    throw new BadInput([{ severity: 'error', file, line: table.line, found, expected, mend }]);
  };
  refuseUnclearCells(taker, columns, parts.reading.decimal, refuse);
  meetContradictions(parts, refuse);
  const named = [...taker.channels].sort(([a], [b]) => (a < b ? -1 : 1));
  const origin_s = Math.min(0, taker.earliest_s);
  let cleaned = named.map(([name, samples]) => ({ name, ...clean(samples, origin_s) }));
  refuseThin(taker, cleaned, columns, refuse);
  refuseJumps(parts, cleaned, refuse);
  const gapsIn = cleaned.map((c) => gapsOf(c.series, c.lost));
  refuseScattered(cleaned, gapsIn, refuse);
  const aligned = parts.reading.align ? alignChannels(cleaned) : [];
  const alignment = aligned.map((one) => one.alignment);
  cleaned = cleaned.map((c, k) => (aligned[k - 1]?.alignment.moved ? moved(c, aligned[k - 1]!) : c));

  const first = Math.min(...cleaned.map((c) => c.series.time_s[0]!));
  for (const { series } of cleaned) {
    const { time_s } = series;
    if (first !== 0) for (let i = 0; i < time_s.length; i++) time_s[i]! -= first;
  }
  const last = Math.max(...cleaned.map((c) => endOf(c.series)));
  meetCombined(cleaned.map(sampled), parts, refuse);
  const { signs, remarks: repeats } = signsOf(cleaned.map(sampled));
  const total = cleaned.length === 1 ? cleaned[0]!.series : sumChannels(cleaned.map((c) => c.series));
  if (total === null) {
    return refuse(
      `channels that never run at the same time: ${cleaned.map((c) => c.name).join(', ')}`,
      'channels of one and the same time, so that they can be summed',
      'give one channel of the file, or --channel none',
    );
  }
  const ownGaps = cleaned.map((c) => gapsOf(c.series, c.lost));
  const channels = cleaned.map((c, k) => channelQuality(c.name, c.series, ownGaps[k]!));
  const slowest_s = Math.max(...channels.map((c) => c.interval_median_s));
  refuseAveraging(parts.reading, last, refuse);
  const shown = shownOver(channels, slowest_s, parts.reading);
  const gaps = mergeGaps(ownGaps.flat());
  const gap_total_s = gaps.reduce((all, gap) => all + (gap.to_s - gap.from_s), 0);
  const from_s = total.time_s[0]!;
  const to_s = endOf(total);
  const energy_J = trapezoid_J(total.time_s, total.power_W);
  const edits = editsOf(taker, table, cleaned, gaps, gapEnergy_J(cleaned, ownGaps), {
    ...joined(cleaned, from_s, to_s),
    after_J: energy_J,
  });
  const interval_mean_s = Math.max(...channels.map((c) => c.interval_mean_s));
  const missing = missingRows(
    table,
    { rows: taker.rows, interval_s: interval_mean_s, duration_s: last },
    cleaned.map(({ name, series }, k) => ({ name, time_s: series.time_s, gaps: ownGaps[k]! })),
  );
  const inferred = [
    ...parts.inferred,
    ...remarks(parts),
    ...shortAveraging(parts.reading, slowest_s),
    ...missing.remarks,
    ...repeats,
  ];
  return {
    channels: cleaned.map(({ name, series }) => ({ name, series })),
    total,
    gaps,
    bridged: bridgedBy(
      cleaned.map(({ series }) => series),
      ownGaps,
    ),
    statement: {
      file,
      sha256: parts.sha256,
      rows: taker.rows,
      channels,
      place: statedPlace(columns.powers.map((p) => p.name).concat(columns.channel?.name ?? [])),
      start: startOf(parts, first + origin_s),
      duration_s: last,
      rate_median_Hz: 1 / slowest_s,
      rate_mean_Hz: 1 / interval_mean_s,
      ...shown,
      coverage_ratio: 1 - gap_total_s / last,
      gaps_count: gaps.length,
      gap_total_s,
      alignment,
      duplicates_count: sum(cleaned, (c) => c.duplicates),
      unsorted_count: taker.order.unsorted,
      edits,
      signs,
      warnings: [
        ...parts.overruled.sentences,
        ...table.lost.warning(taker.rows + table.unreadable),
        ...missing.warnings,
        ...cleaned.flatMap(({ name, series }) =>
          sumRow(name, series.power_W, sampled({ name, series }).written),
        ),
        ...warningsOf(edits),
      ],
      total: { from_s, to_s, mean_W: energy_J / (to_s - from_s), ...rangeOf(total.power_W), energy_J },
      inferred,
    },
  };
}

function refuseUnclearCells(taker: RowTaker, columns: ChosenColumns, decimal: Decimal, refuse: Refuse): void {
  const names = columns.powers.map((p) => p.name).join(', ');
  const marks = taker.marks.unclear(names) ?? taker.marks.idle(decimal, names);
  if (marks !== null) refuse(marks.found, 'commas and points that mean one thing', marks.mend);
  const current = columns.powers.some((p) => p.voltage !== null);
  if (taker.cellsWithoutUnit > 0) {
    refuse(
      `column ${names} without a unit`,
      current ? 'current in mA, A or kA' : 'power in µW, mW, W, kW or MW',
      `give --unit UNIT, for example --unit ${current ? 'A' : 'W'}`,
    );
  }
}

/** What was stated against the file: a decimal mark, a unit, that rows are of one device. */
function meetContradictions({ taker, columns, reading, overruled }: Parts, refuse: Refuse): void {
  const names = columns.powers.map((p) => p.name).join(', ');
  const marks = taker.marks.against(reading.decimal, names);
  if (marks !== null) overruled.meet(marks.found, 'the decimal mark that the file has', marks.mend, refuse);
  // A unit in the cell itself is clearer than a name.
  if (taker.otherUnit !== null && reading.unit !== null)
    overruled.meet(
      `cells such as ${taker.otherUnit} in ${names}, read in ${reading.unit} as stated`,
      'one unit',
      'leave out --unit',
      refuse,
    );
  taker.denied.forEach((denied, k) => {
    const found = denied.found();
    if (found !== null)
      overruled.meet(
        found,
        'rows of one device',
        `give --channel ${quotedName(columns.denied[k]!.name)}`,
        refuse,
      );
  });
}

/** A channel that is made of the others counts them twice. */
function meetCombined(channels: readonly Sampled[], { columns, overruled }: Parts, refuse: Refuse): void {
  const names = channels.map(({ name }) => name);
  const leave = (name: string): string =>
    columns.channel === null
      ? `leave ${name} out (${names
          .filter((other) => other !== name)
          .map(
            (other) => `--${columns.powers[0]!.voltage === null ? 'power' : 'current'} ${quotedName(other)}`,
          )
          .join(' ')})`
      : `take the rows of ${name} out of the file`;
  const derived = derivedAmong(names);
  if (derived !== null)
    overruled.meet(
      `${derived.name} beside ${derived.others.join(', ')}: by its name ${derived.what}, no load of its own`,
      'channels that are summed, each a load of its own',
      leave(derived.name),
      refuse,
    );
  const found = derived === null ? combined(channels) : null;
  if (found !== null)
    overruled.meet(
      `${names[found.whole]} ${found.words}`,
      'channels that are summed, each a load of its own',
      leave(names[found.whole]!),
      refuse,
    );
}

function sampled({ name, series }: Pick<NamedChannel, 'name' | 'series'>): Sampled {
  const written = (power_W: number): string => formatQuantity(power_W, 'power', 4);
  return { name, time_s: series.time_s, values: series.power_W, written, rests: true };
}

/** A channel moved in time; places of lost samples move with those before them. */
function moved(channel: NamedChannel, { series, alignment }: Aligned): NamedChannel {
  const before = channel.series;
  const places = channel.lost.map((i) => firstAbove(series.time_s, before.time_s[i]! - alignment.lag_s) - 1);
  const lost = places.filter((i) => i >= 0 && i + 1 < series.time_s.length);
  return { ...channel, series, lost };
}

type NamedChannel = Cleaned & { readonly name: string };

function refuseThin(
  taker: RowTaker,
  cleaned: readonly NamedChannel[],
  columns: ChosenColumns,
  refuse: Refuse,
): void {
  const usable = sum(cleaned, (c) => c.series.time_s.length);
  if (usable === 0) {
    const d = taker.dropped;
    refuse(
      `${counted(taker.rows, 'row')}, none usable: ${listed(
        [
          counted(d.badStamp, 'bad stamp'),
          counted(d.emptyPower, 'empty power'),
          counted(d.textPower, 'power that is no number', 'powers that are no numbers'),
          counted(
            taker.sentinels.count,
            'value that stands for no reading',
            'values that stand for no reading',
          ),
          counted(d.absurdPower, 'power beyond 1e12 W', 'powers beyond 1e12 W'),
          counted(taker.elsewhere, 'row that --where leaves out', 'rows that --where leaves out'),
          counted(d.wrongWidth, 'row too wide', 'rows too wide'),
          counted(
            sum(cleaned, (c) => c.negatives),
            'negative power',
          ),
        ].filter((words) => !words.startsWith('0 ')),
        'and',
      )}`,
      'rows with a stamp and a power of 0 or more',
      sum(cleaned, (c) => c.negatives) >= taker.rows
        ? 'turn the sign of the powers in the export, if it counts what is drawn as negative'
        : 'check the export, or give --time COLUMN and --power COLUMN',
    );
  }
  if (columns.channel !== null && cleaned.length > mostChannels) {
    refuse(
      `${cleaned.length} different values in column ${columns.channel.name}`,
      `a column that names at most ${mostChannels} channels`,
      'give --channel COLUMN or --channel none',
    );
  }
  refuseNegative(cleaned, refuse);
  const thin = cleaned.filter((c) => c.series.time_s.length < 2);
  if (thin.length > 0) {
    refuse(
      cleaned.length === 1
        ? 'one usable row'
        : `one usable row in channel ${thin.map((c) => c.name).join(', ')}`,
      'at least two rows with different stamps in each channel',
      'record for longer, or check which column names the channel',
    );
  }
  const mixed =
    sum(cleaned, (c) => c.conflicts) > 0.1 * usable || taker.order.unsorted > Math.max(10, 0.01 * usable);
  if (mixed && columns.channel === null && !columns.channelDenied && columns.unused.length > 0) {
    const options = columns.unused.map((name) => `--channel ${name}`).join(' or ');
    refuse(
      `rows that read like several channels mixed, and no column known to name them`,
      'a column that names the channel of each row',
      `give ${options} or --channel none`,
    );
  }
}

/** A channel that counts what is drawn as negative would be left out, all but a few samples of noise. */
function refuseNegative(cleaned: readonly NamedChannel[], refuse: Refuse): void {
  for (const { name, negatives, series, duplicates } of cleaned) {
    const all = negatives + series.time_s.length + duplicates;
    if (2 * negatives <= all) continue;
    refuse(
      `negative powers in ${negatives} of ${counted(all, 'sample')} of ${name}`,
      'powers of 0 or more, as a load draws them',
      `turn the sign of ${name} in the export, if it counts what is drawn as negative`,
    );
  }
}

function refuseScattered(
  cleaned: readonly NamedChannel[],
  gaps: readonly (readonly Gap[])[],
  refuse: Refuse,
): void {
  cleaned.forEach(({ name, series }, k) => {
    const wrong = scattered(name, series.time_s, gaps[k]!);
    if (wrong !== null) refuse(wrong.found, wrong.expected, wrong.mend);
  });
}

/** A clock that was put back lays two times of the recording over each other: sorting would mix them. */
function refuseJumps(
  { taker, clock, reading }: Parts,
  cleaned: readonly NamedChannel[],
  refuse: Refuse,
): void {
  if (reading.sort) return;
  const left = summerTimeLeft(taker.order, clock.zoneless);
  if (left !== null)
    refuse(
      left.found,
      left.expected,
      'export the stamps in UTC, or give --sort where the rows are merely out of order',
    );
  for (const { name, runs, series } of cleaned) {
    const again = runsAgain(name, runs, medianInterval_s(series.time_s));
    if (again !== null)
      refuse(
        again.found,
        again.expected,
        'split the file there, name the column of channels by --channel, or give --sort to lay them over each other',
      );
  }
}

/** Highest frequency that shows, and what bounds it. */
function shownOver(channels: readonly ChannelQuality[], slowest_s: number, reading: RecordedReading) {
  let longest_s = slowest_s;
  let bandwidth_by: QualityStatement['bandwidth_by'] = 'rate';
  const mean_s = Math.max(...channels.map((c) => c.interval_mean_s));
  if (mean_s > (1 + telling_ratio) * slowest_s) [longest_s, bandwidth_by] = [mean_s, 'mean rate'];
  const renewal_s = reading.fresh ? 0 : Math.max(0, ...channels.map((c) => c.renewal_s ?? 0));
  if (renewal_s > longest_s) [longest_s, bandwidth_by] = [renewal_s, 'renewal'];
  if ((reading.averaging_s ?? 0) > longest_s) [longest_s, bandwidth_by] = [reading.averaging_s!, 'averaging'];
  let bandwidth_Hz = bandwidthOfRate / longest_s;
  if (reading.side === 'ac' && bandwidth_Hz > acSideShows_Hz) {
    [bandwidth_Hz, bandwidth_by] = [acSideShows_Hz, 'AC side'];
  }
  return { bandwidth_Hz, bandwidth_by };
}

/**
 * What is left of a DC load behind its power supply. Assumed: the input stage of a rectifier follows its load
 * with a loop of 5 to 15 Hz, so that faster swings come from its bulk capacitor.
 */
const acSideShows_Hz = 5;

function endOf(series: Series): number {
  return series.time_s[series.time_s.length - 1]!;
}

function startOf(parts: Parts, first_s: number): string | null {
  const start = parts.clock.start;
  if (start === null) return statedStart(parts.table);
  return isoOf(start.whole_s, start.part_s + first_s);
}

/** Start that the file itself states, for relative stamps. */
function statedStart({ about }: ReadTable): string | null {
  return about.map((text) => /^start (\S+)$/.exec(text)?.[1]).find((start) => start !== undefined) ?? null;
}

const samplesAre = {
  means: 'Each sample is the mean over its interval, as stated.',
  instants:
    'Each sample is the value at its stamp, as stated: what the load did between two of them is not in it, swings faster than half the rate may show as slow ones, and the energy is only as good as that.',
} as const;

function remarks({ taker, clock, columns, reading, overruled }: Parts): string[] {
  const lines: string[] = [];
  lines.push(...taker.sentinels.unmet());
  if (clock.zoneless) lines.push('Dates without a zone are read as UTC.');
  if (taker.cellsWithUnit > 0) lines.push(`Power cells carry their unit (${taker.cellsWithUnit} cells).`);
  const decimalCommas = taker.marks.decimal + taker.marks.open;
  if (decimalCommas > 0) lines.push(`Commas in powers are decimal commas (${decimalCommas} cells).`);
  if (taker.marks.thousands > 0) {
    lines.push(`Commas in powers part thousands (${taker.marks.thousands} cells).`);
  }
  const pointed = taker.marks['pointed-thousands'];
  if (pointed > 0) lines.push(`Points in powers part thousands (${pointed} cells).`);
  if (reading.samples !== null) lines.push(samplesAre[reading.samples]);
  if (reading.sort && taker.order.unsorted === 0)
    lines.push('No stamp jumps back: there was nothing to sort (--sort).');
  if (reading.overrule && overruled.sentences.length === 0)
    lines.push(
      'Nothing of the file speaks against what is stated: there was nothing to overrule (--overrule).',
    );
  if (reading.align && taker.channels.size === 1)
    lines.push('There is one channel: there was nothing to align (--align).');
  if (reading.fresh) {
    lines.push(
      'Repeated values are taken for the load itself, as asked (--fresh): how often the sensor renews bounds nothing.',
    );
  }
  if (clock.dayOnly) lines.push('Stamps are times of day; they run on at midnight.');
  if (columns.rows.length > 0) {
    const told = columns.rows.map(({ name, value }) => `${name} is ${value}`).join(' and ');
    lines.push(`Rows where ${told}: ${taker.rows - taker.elsewhere} of ${taker.rows}.`);
  }
  if (columns.unused.length > 0) lines.push(`Not used: ${columns.unused.join(', ')}.`);
  return lines;
}

/** Energy that lies in the bridged gaps, by the straight lines [J]. */
function gapEnergy_J(cleaned: readonly NamedChannel[], gaps: readonly (readonly Gap[])[]): number {
  let energy_J = 0;
  cleaned.forEach(({ series }, k) => {
    for (const gap of gaps[k]!) {
      const part = cut(series, gap.from_s, gap.to_s);
      energy_J += trapezoid_J(part.time_s, part.power_W);
    }
  });
  return energy_J;
}

/** Energy of the channels over their own spans, and what lies outside the span they share. */
function joined(cleaned: readonly NamedChannel[], from_s: number, to_s: number) {
  const cut_s = Math.max(
    ...cleaned.map((c) => Math.max(from_s - c.series.time_s[0]!, endOf(c.series) - to_s)),
  );
  return { channels_J: sum(cleaned, (c) => c.merged_J), cut_s };
}

function sum<T>(items: readonly T[], of: (item: T) => number): number {
  return items.reduce((total, item) => total + of(item), 0);
}
